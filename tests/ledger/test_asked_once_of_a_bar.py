"""A bar whose figure slipped is asked about once, and not for each of its zones."""

from __future__ import annotations

from coach.bench.planned import planned_tool
from coach.ledger.looking_back import look_back
from coach.recipe.reader import read_recipe
from coach.telling.words import write

HOOK = """\
recipe: Hook
pieces:
  hook:
    metal: mild steel
    bar: round 60
    zones:
      eye: ring of round 6, inside 14 ±2
      shank: round 6, long 120 ±12
      tip: round 5 to 2, long 60 ±6
usual: {at: orange}
steps:
  - mark out: hook
  - cut: tip, cold
  - draw: shank
  - taper: tip
  - draw: eye, round 6
  - bend: eye, ring
"""


def asked(text: str) -> list[str]:
    """What is asked about decimal marks."""
    planned = planned_tool(look_back(read_recipe(text, "hook.yaml")))
    return [told for one in planned.questions if "decimal mark" in (told := write(one.sentence))]


def test_a_bar_that_is_far_from_all_its_zones_is_asked_about_itself() -> None:
    (one,) = asked(HOOK)
    assert one.startswith("The bar of hook is 60 mm across, and eye, shank and tip are drawn to 5 mm, 6 mm:")


def test_zones_of_one_size_are_asked_about_together() -> None:
    with_a_boss = HOOK.replace("      shank:", "      boss: round 60, long 30 ±5\n      shank:")
    assert [one.split(" is to be ")[0] for one in asked(with_a_boss)] == [
        "The diameter of eye and shank",
        "The diameter of tip",
    ]
