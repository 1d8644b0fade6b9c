"""A slip is told once, where it stands, with what to write; and the cure is the one that was meant."""

from __future__ import annotations

import pytest

from coach.recipe.faults import RecipeFaults
from coach.recipe.reader import read_recipe

KNIFE = """\
recipe: Small knife
usual: {at: orange}
pieces:
  knife:
    metal: 1075
    bar: 30 x 5
    zones:
      blade: 30 x 4, long 120 ±6
      tang: 15 x 5, long 90 ±6
steps:
  - mark out: knife
  - draw: tang, 3 heats
  - draw: blade, 2 heats, at 900 °C
  - harden: blade, at 800 to 830 °C, quench fast oil
  - temper: blade, at 220 °C, soak at least 1 h
"""


def told(was: str, now: str) -> list[tuple[int, str]]:
    """The line of each fault, and its sentence, with one thing written otherwise."""
    assert was in KNIFE
    with pytest.raises(RecipeFaults) as refused:
        read_recipe(KNIFE.replace(was, now, 1), "knife.yaml")
    return [(one.line, str(one.message)) for one in refused.value.faults]


@pytest.mark.parametrize(
    ("was", "now", "line", "said"),
    [
        ("at 900 °C", "at 1650 F", 13, "1650 F in a file in mm: write °C, or units: in for the whole file"),
        ("at 800 to 830 °C", "at 1472 to 1526 F", 14, "1472 F in a file in mm: write °C"),
        ("at 800 to 830 °C", "at 800 to 830 C", 14, "800 C: write °C, as in 800 °C"),
        ("at: orange", "at: 1650 F", 2, "°F in a file in mm"),
        ("usual:", "margin: 3 %\nusual:", 2, "it stands under usual"),
        ("usual:", "quench: oil\nusual:", 2, "it stands in a step"),
        ("metal: 1075", "metal 1075", 5, "a colon is missing behind metal: write “metal: 1075”"),
        ("  knife:", "  knife", 4, "a colon is missing behind knife: write “knife:”"),
    ],
)
def test_a_slip_is_told_once_with_what_to_write(was: str, now: str, line: int, said: str) -> None:
    ((at, sentence),) = told(was, now)
    assert (at, said in sentence) == (line, True), sentence


def test_what_a_step_lacks_of_a_zone_that_was_told_wrongly_is_not_told_beside_it() -> None:
    hinge = KNIFE.replace("tang: 15 x 5, long 90 ±6", "tang: strap eye, inside 14±1, wide 30, thick 5")
    hinge = hinge.replace("draw: tang, 3 heats", "fold: tang, strap eye, 3 heats")
    with pytest.raises(RecipeFaults) as refused:
        read_recipe(hinge, "hinge.yaml")
    assert [one.line for one in refused.value.faults] == [9]
