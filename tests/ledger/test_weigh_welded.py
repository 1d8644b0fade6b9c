"""No weld gathers metal: what comes out of it is no heavier across than what went in."""

from __future__ import annotations

import pytest

from coach.ledger.looking_back import look_back
from coach.ledger.weigh import weigh
from coach.recipe.reader import read_recipe
from coach.telling.words import write

LAMINATE = """\
recipe: Laminate
pieces:
  body:
    metal: mild steel
    bar: 40 x 6
    zones:
      grip: 40 x 6, long 60
      blade: 40 ±2 x {0} ±0.6, long 100 ±15
  edge:
    metal: C80
    bar: 40 x 3
    size: 40 ±1 x 3 ±0.3, long 90 ±3
steps:
  - mark out: body
  - cut: edge, cold, kerf 2
  - weld: blade with edge, 40 ±2 x {0} ±0.6, heats 2 weld + 1 close, at 1130 °C
"""
LOOP = """\
recipe: Loop
pieces:
  loop:
    metal: mild steel
    bar: 40 x 6
    size: strap eye, inside 16.5 ±1, wide 40 ±2, thick {0} ±0.5, lap 30 ±12
steps:
  - cut: loop, cold, kerf 2
  - fold: loop, strap eye, inside 16.5 ±1, 2 heats, at light yellow
  - weld shut: loop, thick {0} ±0.5, heats 1 weld + 1 close, at 1300 °C
"""


def told(text: str) -> list[str]:
    """What the metal cannot do in it."""
    return [write(one.sentence) for one in weigh(look_back(read_recipe(text, "job.yaml")))]


@pytest.mark.parametrize("thick", [12, 18, 24])
def test_a_stack_of_nine_millimetres_does_not_become_thicker_in_its_weld(thick: int) -> None:
    # 40 × 6 and 40 × 3 mm are 360 mm² (by hand); 40 × 12 are 480.
    (one,) = told(LAMINATE.format(thick))
    assert "blade has at most 240 mm² across it, and edge 120 mm² more" in one
    assert f"it wants {40 * thick} mm²" in one


@pytest.mark.parametrize("thick", [8, 8.5])
def test_one_that_is_drawn_out_in_it_does(thick: float) -> None:
    assert not any("gathers no metal" in one for one in told(LAMINATE.format(thick)))


def test_steel_longer_than_what_it_is_laid_on_is_to_be_cut_and_no_seat_to_be_wider() -> None:
    (one, *_) = told(LAMINATE.format(8).replace("40 ±1 x 3 ±0.3, long 90 ±3", "40 ±1 x 3 ±0.3, long 160 ±3"))
    assert "cut it to" in one
    assert "wider" not in one


def test_the_wall_of_a_folded_eye_gets_no_thicker_by_welding_its_lap() -> None:
    (one,) = told(LOOP.format(8))
    assert "the thickness of loop is 5.9 mm before its weld" in one


def test_a_wall_that_its_fires_leave_under_its_drawing_says_what_they_take() -> None:
    # Two heats at light yellow take 0.06 mm a heat, two at 1300 °C 0.2: 6 comes to 5.48, and 5.5 is wanted.
    (one,) = told(LOOP.format(6))
    assert "leave the thickness of loop at 5.5 mm in the end" in one
    assert "Its fires take 0.5 mm off that" in one


def test_one_that_scales_in_it_is_as_thin_as_its_heats_leave_it() -> None:
    assert not any("makes no bar thicker" in one for one in told(LOOP.format(5.6)))
