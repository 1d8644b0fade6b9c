"""Tests of the eye that a haft needs and of the wedge that fills it."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coach.finish.haft import (
    Direction,
    EyeFor,
    MeasuredHaft,
    Oval,
    eye_for_haft,
    kerf_depth_mm,
    wedge_for,
    wood,
)
from coach.quantities.refusal import OutOfRange
from coach.telling.words import write
from coach.telling.writing import Shown

ASH = wood("white ash")
sizes_mm = st.floats(min_value=15, max_value=60)
moistures = st.floats(min_value=4, max_value=28)


def eye(
    length_mm: float,
    width_mm: float,
    now: float,
    in_use: float,
    rings: Direction = "length",
    *,
    second: Oval | None = None,
    fit_mm: float = 0.4,
    flare_mm: float = 2.0,
) -> EyeFor:
    haft = MeasuredHaft(Oval(length_mm, width_mm), ASH, now, in_use, rings, second)
    return eye_for_haft(haft, fit_mm=fit_mm, flare_mm=flare_mm)


def natural(second_length_mm: float, second_width_mm: float) -> EyeFor:
    return eye(32, 20, 8, 8, second=Oval(second_length_mm, second_width_mm))


def told(found: EyeFor, shown: Shown) -> tuple[str, ...]:
    return tuple(write(reason, shown) for reason in found.reasons)


def test_the_haft_shrinks_to_its_service_moisture_before_the_fit_is_left() -> None:
    # 32 mm tangential, ash 7.8 %, 12 to 8 %: 128/366.615 = 0.34914 mm; 20 mm radial, 4.9 %: 80/594.245 =
    # 0.13463 mm; 0.4 mm for finish.
    found = eye(32, 20, 12, 8, "length")
    assert found.hole_length.value == pytest.approx(32 - 0.34914 - 0.4, abs=1e-5)
    assert found.hole_width.value == pytest.approx(20 - 0.13463 - 0.4, abs=1e-5)


def test_the_grain_decides_which_way_the_haft_shrinks_more() -> None:
    along = eye(25, 25, 20, 6, "length")
    across = eye(25, 25, 20, 6, "width")
    assert along.hole_length.value < along.hole_width.value
    assert (across.hole_length, across.hole_width) == (along.hole_width, along.hole_length)


def test_a_haft_drier_than_in_service_is_taken_as_it_is_and_swells_tight() -> None:
    found = eye(32, 20, 6, 10, "length")
    assert (found.hole_length.value, found.hole_width.value) == pytest.approx((31.6, 19.6))
    assert "seated now" in found.seat_when
    assert "swell tight" in found.seat_when


def test_a_haft_much_drier_than_in_use_is_told_to_wait_as_it_would_crush_itself() -> None:
    # Ash of 36 mm tangential from 4 to 12 %: 36·8/(30·100/7.8 - 30 + 4) = 0.80 mm wider (Wood Handbook, eq.
    # 13-2).
    found = eye(36, 22, 4, 12)
    assert "tight" not in found.seat_when
    assert "loose" in found.seat_when
    assert found.seat_when.startswith("Let the haft lie")


@pytest.mark.parametrize("moisture", [0.0, 2.0, 101.0, 150.0])
def test_a_moisture_that_no_haft_has_is_refused(moisture: float) -> None:
    # Wood Handbook, table 4-2: in air of 10 % relative humidity wood still holds 2.5 % (from memory).
    for now, in_use in ((moisture, 10.0), (10.0, moisture)):
        with pytest.raises(OutOfRange, match="moisture"):
            eye(36, 22, now, in_use)


def test_a_haft_as_thick_as_a_tree_is_refused() -> None:
    with pytest.raises(OutOfRange) as refused:
        eye(3000, 2000, 10, 10)
    assert "fits no tool" in str(refused.value)


def test_a_damp_haft_is_told_to_dry_first() -> None:
    assert eye(32, 20, 18, 8, "length").seat_when.startswith("Let the haft dry to 8 %")
    assert eye(32, 20, 8.5, 8, "length").seat_when.startswith("The haft can be seated now, if 8.5 % is right")


@given(sizes_mm, sizes_mm, moistures, moistures, st.floats(min_value=0.3, max_value=0.5))
def test_the_drift_is_never_above_the_haft_as_it_will_be(
    length_mm: float, width_mm: float, now: float, service: float, fit_mm: float
) -> None:
    found = eye(length_mm, width_mm, now, service, "width", fit_mm=fit_mm)
    assert found.hole_length.value <= length_mm - fit_mm + 1e-9
    assert found.hole_width.value <= width_mm - fit_mm + 1e-9
    assert found.far_width.value >= found.hole_width.value
    assert found.far_length.value >= found.hole_length.value


def test_a_natural_haft_counts_where_it_is_smaller_and_is_left_tighter() -> None:
    found = natural(31, 21)
    assert found.hole_length.value == pytest.approx(31 - 0.4 - 0.5)
    assert found.hole_width.value == pytest.approx(20 - 0.4 - 0.5)


def test_the_reasons_are_sentences_in_the_units_asked_for() -> None:
    found = eye(32, 20, 12, 8)
    # 0.349 and 0.135 mm of shrinkage, 0.4 mm of fit and 2 mm of flare, over 25.4.
    assert told(found, Shown("in")) == (
        "The haft measures 1 1/4 in × 25/32 in at 12 % moisture.",
        "At 8 % white ash will have shrunk by 0.014 in in length and 0.005 in in width.",
        "Another 0.016 in is left for scale and the file.",
        "The far side is 0.079 in wider, for the wedge to fill.",
    )
    assert "Another 0.40 mm is left for scale and the file." in told(found, Shown())
    assert any("uneven" in reason and "0.50 mm" in reason for reason in told(natural(31, 20), Shown()))


def test_a_haft_of_which_no_eye_is_left_is_refused() -> None:
    with pytest.raises(OutOfRange, match="leave less for fit"):
        eye(32, 3, 8, 8, "length", fit_mm=4)


def test_the_kerf_goes_two_thirds_down_the_eye() -> None:
    # Eye 50 mm deep, kerf about 33 mm (from memory).
    assert kerf_depth_mm(50) == pytest.approx(33, abs=0.4)


def test_a_wedge_of_one_in_six_has_nine_and_a_half_degrees_between_its_faces() -> None:
    # atan(1/6) = 9.46°, worked apart from the program.
    made = wedge_for(2, 2, 49.5)
    thinned = (made.thickness.value - made.tip.value) / made.length.value
    assert math.degrees(math.atan(thinned)) == pytest.approx(9.46, abs=5e-3)


@given(
    st.floats(min_value=0.5, max_value=5),
    st.floats(min_value=0, max_value=4),
    st.floats(min_value=31, max_value=80),
)
def test_a_wedge_fills_the_flare_and_enters_its_kerf(flare: float, kerf: float, depth: float) -> None:
    made = wedge_for(flare, kerf, 1.5 * depth)
    assert made.thickness.value - kerf == pytest.approx(flare)
    assert made.length.value <= depth
    assert made.tip.value <= kerf + 1e-9
    assert made.thickness.value - made.tip.value == pytest.approx(made.length.value / 6, abs=1e-9)


def test_a_wedge_too_blunt_for_its_kerf_is_refused() -> None:
    with pytest.raises(OutOfRange, match="saw deeper"):
        wedge_for(5, 1, 36)


@pytest.mark.parametrize("wrong", [math.nan, math.inf, -1.0])
def test_a_size_that_is_none_is_refused_in_one_sentence(wrong: float) -> None:
    for ask in (
        lambda: eye(wrong, 20, 8, 8, "length"),
        lambda: eye(32, wrong, 8, 8, "length"),
        lambda: eye(32, 20, wrong, 8, "length"),
        lambda: eye(32, 20, 8, wrong, "length"),
        lambda: eye(32, 20, 8, 8, "length", fit_mm=wrong),
        lambda: eye(32, 20, 8, 8, "length", flare_mm=wrong),
        lambda: natural(wrong, 20),
        lambda: kerf_depth_mm(wrong),
        lambda: wedge_for(wrong, 2, 33),
        lambda: wedge_for(2, wrong, 33),
        lambda: wedge_for(2, 2, wrong),
    ):
        with pytest.raises(OutOfRange) as refused:
            ask()
        assert str(refused.value).endswith(".")
        assert "\n" not in str(refused.value)
