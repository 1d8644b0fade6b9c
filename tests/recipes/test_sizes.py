"""The limits of sizes that are written bare: the table of docs/recipes.md (common practice, no source)."""

from __future__ import annotations

import math

import pytest

from coach.operations.measures import read_length_or_none
from coach.quantities import Kind, SizeError
from coach.recipe.reader import read_recipe
from coach.recipe.sizes import limits_reader, read_heats, read_loss


@pytest.mark.parametrize(
    ("dimension", "size", "margin"),
    [
        ("length", 40.0, 1.5),
        ("length", 400.0, 6.0),  # 1.5 %
        ("haft_length", 900.0, 13.5),
        ("width", 20.0, 1.0),
        ("end_width", 100.0, 3.0),  # 3 %
        ("hole_length", 10.0, 0.5),
        ("far_hole_width", 50.0, 1.5),  # 3 %
        ("thickness", 8.0, 0.5),
        ("side", 36.0, 1.8),  # 5 %
        ("diameter", 12.0, 0.6),
        ("across_flats", 5.0, 0.5),
        ("end_thickness", 2.0, 0.5),
        ("radius", 50.0, 2.5),
    ],
)
def test_a_bare_size_takes_the_usual_limits(dimension: str, size: float, margin: float) -> None:
    limits = limits_reader(dimension, Kind.LENGTH)(str(size), "mm")
    assert limits.nominal == size
    assert limits.low == pytest.approx(size - margin)
    assert limits.high == pytest.approx(size + margin)
    assert not limits.stated


def test_a_bare_angle_takes_two_degrees_either_way() -> None:
    limits = limits_reader("angle", Kind.ANGLE)("45°", "mm")
    assert (limits.low, limits.nominal, limits.high) == (43.0, 45.0, 47.0)


def test_the_usual_limits_never_reach_below_half_of_a_small_size() -> None:
    limits = limits_reader("thickness", Kind.LENGTH)("0.6", "mm")
    assert limits.low == 0.3
    assert limits.high == pytest.approx(1.1)


@pytest.mark.parametrize(
    ("written", "most"),
    [
        ("at most 0.5", 0.5),
        ("0.5", 0.5),
        ("0 to 1", 1.0),
        ("0 mm to 1 mm", 1.0),
        ("0 +0.3 -0", 0.3),
        ("0", 0.2),
    ],
)
def test_a_gap_may_be_nothing_however_its_limits_are_written(written: str, most: float) -> None:
    limits = limits_reader("gap", Kind.GAP)(written, "mm")
    assert (limits.low, limits.high) == (-math.inf, most)


def test_a_gap_that_must_be_there_keeps_its_low_limit() -> None:
    limits = limits_reader("gap", Kind.GAP)("0.5 to 1", "mm")
    assert (limits.low, limits.high) == (0.5, 1.0)


def test_limits_as_written_are_not_widened() -> None:
    assert limits_reader("width", Kind.LENGTH)("at least 40", "mm").high == math.inf
    assert limits_reader("width", Kind.LENGTH)("28 +0 -1", "mm").high == 28.0


@pytest.mark.parametrize("written", ["none", "None", "0", "0.0", "0,0", "0 mm", "0in"])
def test_nothing_is_a_length_where_it_may_be(written: str) -> None:
    assert read_length_or_none(written, "mm") == 0.0


@pytest.mark.parametrize("written", ["5", "½", "5.5", "", "5 stone", "-3 mm", "5 g 2"])
def test_a_loss_without_a_unit_or_sense_is_refused(written: str) -> None:
    with pytest.raises(SizeError):
        read_loss(written, "mm")


@pytest.mark.parametrize("written", ["-1", "2.5", "100", "two", "", "1e1", "³"])
def test_heats_are_whole_numbers_up_to_99(written: str) -> None:
    with pytest.raises(SizeError):
        read_heats(written)
    assert read_heats("12") == 12


def test_a_tolerance_is_taken_as_the_coach_prints_it_with_its_own_minus() -> None:
    text = """\
recipe: Pin
pieces:
  pin:
    metal: mild steel
    bar: round 12
    size: round 8 +0.7 −0.5, long 60 ±6
steps:
  - draw: pin, 2 heats
"""
    limits = read_recipe(text, "pin.yaml").drawing["pin"].limits["diameter"]
    assert (limits.low, limits.high) == (7.5, 8.7)
