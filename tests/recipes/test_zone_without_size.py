"""A zone of which something is said, but no size, is one fault at its name."""

from __future__ import annotations

import pytest

from coach.places import bundled_recipes
from coach.recipe.faults import RecipeFaults
from coach.recipe.reader import read_recipe

TWO_ZONES = """recipe: pin
pieces:
  body:
    metal: mild steel
    bar: square 20, long 500
    zones:
      a: {SAID}
      b: round 12, long 50
steps:
  - draw: b, round 12
"""


def faults_of(text: str) -> list[str]:
    with pytest.raises(RecipeFaults) as told:
        read_recipe(text, "pin.yaml")
    return [str(fault) for fault in told.value.faults]


@pytest.mark.parametrize("said", ["{allowance: 2 %}", "allowance 2 %", "{takes up: wide}", "takes up wide"])
def test_a_zone_of_which_no_size_is_said_is_one_fault(said: str) -> None:
    assert faults_of(TWO_ZONES.replace("{SAID}", said)) == [
        "pin.yaml:7:7: a has no size: add size:, such as round 12, long 50"
    ]


def test_an_eye_whose_size_is_deleted_is_one_fault() -> None:
    lines = (bundled_recipes() / "hedging-hatchet.yaml").read_text(encoding="utf-8").splitlines()
    kept = [line for line in lines if not line.startswith("        size: ")]
    assert len(kept) == len(lines) - 1
    assert [fault.split(": ", 1)[1] for fault in faults_of("\n".join(kept))] == [
        "eye has no size: add size:, such as round 12, long 50"
    ]
