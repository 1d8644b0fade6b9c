"""Where a finding stands in the recipe's file: at what is to be written otherwise there."""

from __future__ import annotations

import pytest

from coach.bench.in_file import findings_in_file
from coach.ledger.looking_back import look_back
from coach.ledger.weigh import weigh
from coach.recipe.reader import read_recipe

HINGE = """\
recipe: Shutter hinge
usual: {at: light orange, weld at: 1280 °C, flux: borax}
pieces:
  strap:
    metal: mild steel
    bar: 30 x 6
    zones:
      eye: strap eye, inside 14 ±0.5, wide 30, thick 6, lap 35 ±4
      leaf: 30 x 6 to 18 x 4, long 250 ±10
steps:
  - taper: leaf, 3 heats
  - fold: eye, strap eye, 2 heats
  - weld shut: eye, HEATS
"""


@pytest.mark.parametrize("heats", ["heats 2 close", "2 forging heats", "cold", "same heat"])
def test_a_weld_that_takes_no_welding_heat_is_told_at_its_step_and_not_at_the_usual_heat(heats: str) -> None:
    plan = look_back(read_recipe(HINGE.replace("HEATS", heats), "hinge.yaml"))
    (finding,) = findings_in_file(plan.recipe, weigh(plan))
    assert (finding.line, finding.column) == (13, 5)
