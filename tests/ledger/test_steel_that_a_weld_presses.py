"""Steel that a weld presses with its bar: the thickness that is told leaves enough where it is drawn."""

from __future__ import annotations

import pytest

from coach.ledger.laid_steel import SteelToLay, laid_steels
from coach.ledger.looking_back import look_back
from coach.ledger.weigh import Cannot, weigh
from coach.recipe.reader import read_recipe
from coach.telling.words import write

IRON = """\
recipe: Plane iron
scale: none
pieces:
  body:
    metal: mild steel
    bar: 50 x {bar}
    zones:
      plate: 50 ±1 x {bar} ±0.5, long 100 ±9
      bit: 50 ±1 x {weld} ±0.5, long 90 ±9
  steel:
    metal: C80
    bar: 50 x {thick}
    size: 50 ±1 x {thick} ±0.4, long 85 ±5, remains {remains}
usual: {{at: yellow, weld at: 1150 °C, kerf: 1.5, flux: borax}}
steps:
  - mark out: body
  - cut: bit, cold
  - mark out: steel
  - cut: steel, cold
  - weld: bit with steel, 50 x {weld}, heats 2 weld + 1 close, squeeze 0 %
"""


def iron(
    *, thick: float, bar: float = 6, weld: float = 9, remains: float = 3.0
) -> tuple[SteelToLay, list[str]]:
    """The steel as it is to be, and what is told of too little."""
    plan = look_back(read_recipe(IRON.format(bar=bar, thick=thick, weld=weld, remains=remains), "iron.yaml"))
    (steel,) = laid_steels(plan)
    return steel, [write(one.sentence) for one in weigh(plan) if one.what is Cannot.LEAVE_STEEL]


def skin_mm() -> float:
    """What comes off the outer face besides: of steel that is pressed by nothing, all that is lacking."""
    steel, _ = iron(thick=4, weld=10)
    return 4.0 - steel.left.value


def test_what_must_be_laid_on_is_what_leaves_enough_once_both_are_pressed() -> None:
    """6 + t come to 9: t · 9 / (6 + t) is to be what remains and its skin, a: t = 6 · a / (9 - a)."""
    asked_mm = 4.0 + skin_mm()
    steel, told = iron(thick=4, remains=4.0)
    by_hand_mm = 6.0 * asked_mm / (9.0 - asked_mm)
    assert steel.needed.value == pytest.approx(by_hand_mm, abs=0.06)
    assert sum(part.size.value for part in steel.parts) == pytest.approx(steel.needed.value)
    assert len(told) == 1


@pytest.mark.parametrize("remains", [2.5, 3.0, 4.0, 4.5])
@pytest.mark.parametrize("weld", [8.0, 9.0])
def test_steel_as_thick_as_is_told_leaves_enough(remains: float, weld: float) -> None:
    steel, _ = iron(thick=2.5, remains=remains, weld=weld)
    asked_mm = remains + skin_mm()
    by_hand_mm = 6.0 * asked_mm / (weld - asked_mm)
    # Of 90 mm of bit, weld thick, 85 mm of steel so thick are more than four fifths: hardly any iron is left.
    assert (steel.pressed_to is not None) is (85.0 * by_hand_mm > 0.8 * 90.0 * weld)
    if steel.pressed_to is not None:
        return
    again, told = iron(thick=round(steel.needed.value + 0.05, 1), remains=remains, weld=weld)
    assert told == []
    assert again.enough


def test_where_the_weld_leaves_too_little_of_any_steel_no_thickness_is_named() -> None:
    """Of 9 mm in all 8 of steel are none that lies on an iron."""
    steel, (told,) = iron(thick=4, remains=8.0)
    assert steel.pressed_to is not None
    assert "presses both to 9 mm: no thickness of it leaves 8 mm of steel there" in told
    assert "must be" not in told
