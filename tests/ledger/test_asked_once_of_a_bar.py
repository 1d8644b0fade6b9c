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


def test_zones_of_one_size_are_asked_about_together() -> None:
    planned = planned_tool(look_back(read_recipe(HOOK, "hook.yaml")))
    asked = [write(one.sentence) for one in planned.questions if "decimal mark" in write(one.sentence)]
    assert [one.split(" is to be ")[0] for one in asked] == [
        "The diameter of eye and shank",
        "The diameter of tip",
    ]
