"""Steel laid flat on a bar thins with it where the weld itself takes both down."""

from __future__ import annotations

from coach.ledger.laid_steel import laid_steels
from coach.ledger.weigh import Cannot, weigh
from tests.ledger.recipes import planned

PLATE = """\
recipe: Steel thinned in the weld
scale: none
pieces:
  body:
    metal: mild steel
    bar: 50 x 6
    zones:
      plate: 50 ±1 x 6 ±0.5, long 100 ±9
      bit: 50 ±1 x 6 ±0.5, long 60 ±6
  steel:
    metal: C80
    bar: 50 x 5
    size: 50 ±1 x 5 ±0.4, long 30 ±3, remains 3.5
usual: {at: yellow, weld at: 1150 °C, kerf: 1.5, flux: borax}
steps:
  - mark out: body
  - cut: bit, cold
  - mark out: steel
  - cut: steel, cold
  - weld: bit with steel, heats 2 weld + 1 close
"""


def test_what_the_weld_thins_leaves_less_steel() -> None:
    # By hand: 6 + 5 = 11 mm come to 6, so 5 mm of steel less 1 % of squeeze come to 4.95 · 6/11 = 2.7 mm.
    # The skin of its heats comes off that still.
    (steel,) = laid_steels(planned(PLATE))
    assert steel.left.value < 2.7
    assert not steel.enough
    assert [one.what for one in weigh(planned(PLATE))] == [Cannot.LEAVE_STEEL]


def test_a_weld_that_leaves_both_as_thick_as_they_lay_thins_none() -> None:
    # 6 + 5 = 11 mm before and after.
    text = PLATE.replace("bit with steel,", "bit with steel, 50 x 11,")
    assert not any("thinned" in part.what for part in laid_steels(planned(text))[0].parts)
