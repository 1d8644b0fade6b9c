"""Tests of the eye that a haft needs and of the wedge that fills it."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coach.finish.edge import FinishError
from coach.finish.haft import (
    EyeFor,
    eye_for_haft,
    kerf_depth_mm,
    wedge_for,
)
from coach.finish.wood import wood

ASH = wood("white ash")
sizes_mm = st.floats(min_value=15, max_value=60)
moistures = st.floats(min_value=4, max_value=28)


def _natural(second_length_mm: float, second_width_mm: float, uneven_mm: float = 0.5) -> EyeFor:
    return eye_for_haft(
        32,
        20,
        ASH,
        8,
        8,
        "length",
        kind="natural",
        second_length_mm=second_length_mm,
        second_width_mm=second_width_mm,
        uneven_mm=uneven_mm,
    )


def test_the_haft_shrinks_to_its_service_moisture_before_the_fit_is_left() -> None:
    # 32 mm tangential, ash 7.8 %, 12 to 8 %: 0.3328 mm; 20 mm radial, 4.9 %: 0.1307 mm; 0.4 mm for finish.
    eye = eye_for_haft(32, 20, ASH, 12, 8, "length")
    assert eye.hole_length_mm == pytest.approx(32 - 0.3328 - 0.4, abs=1e-9)
    assert eye.hole_width_mm == pytest.approx(20 - 0.49 * 4 / 15 - 0.4, abs=1e-9)


def test_the_grain_decides_which_way_the_haft_shrinks_more() -> None:
    along = eye_for_haft(25, 25, ASH, 20, 6, "length")
    across = eye_for_haft(25, 25, ASH, 20, 6, "width")
    assert along.hole_length_mm < along.hole_width_mm
    assert (across.hole_length_mm, across.hole_width_mm) == (along.hole_width_mm, along.hole_length_mm)


def test_a_haft_drier_than_in_service_is_taken_as_it_is_and_swells_tight() -> None:
    eye = eye_for_haft(32, 20, ASH, 6, 10, "length")
    assert (eye.hole_length_mm, eye.hole_width_mm) == pytest.approx((31.6, 19.6))
    assert "seated now" in eye.seat_when
    assert "swell tight" in eye.seat_when


def test_a_damp_haft_is_told_to_dry_first() -> None:
    assert eye_for_haft(32, 20, ASH, 18, 8, "length").seat_when.startswith("Let the haft dry to 8 %")
    assert eye_for_haft(32, 20, ASH, 8.5, 8, "length").seat_when == (
        "The haft can be seated now: it is as dry as it will be in use."
    )


@given(sizes_mm, sizes_mm, moistures, moistures, st.floats(min_value=0.3, max_value=0.5))
def test_the_drift_is_never_above_the_haft_as_it_will_be(
    length_mm: float, width_mm: float, now: float, service: float, fit_mm: float
) -> None:
    eye = eye_for_haft(length_mm, width_mm, ASH, now, service, "width", fit_mm=fit_mm)
    assert eye.hole_length_mm <= length_mm - fit_mm + 1e-9
    assert eye.hole_width_mm <= width_mm - fit_mm + 1e-9
    assert eye.far_width_mm >= eye.hole_width_mm
    assert eye.far_length_mm >= eye.hole_length_mm


def test_a_natural_haft_counts_where_it_is_smaller_and_is_left_tighter() -> None:
    eye = _natural(31, 21)
    assert eye.hole_length_mm == pytest.approx(31 - 0.4 - 0.5)
    assert eye.hole_width_mm == pytest.approx(20 - 0.4 - 0.5)
    assert _natural(31, 21, uneven_mm=1).hole_width_mm == pytest.approx(20 - 0.4 - 1)


def test_a_natural_haft_is_measured_twice_and_a_turned_one_once() -> None:
    with pytest.raises(FinishError, match="at two places"):
        eye_for_haft(32, 20, ASH, 8, 8, "length", kind="natural", second_length_mm=31)
    with pytest.raises(FinishError, match="call it natural"):
        eye_for_haft(32, 20, ASH, 8, 8, "length", second_length_mm=31, second_width_mm=20)


def test_the_reasons_are_sentences_in_the_users_own_units() -> None:
    eye = eye_for_haft(
        32, 20, ASH, 12, 8, "length", flare_length_mm=1, say=lambda mm: f"{mm / 25.4:.2f} inch"
    )
    assert eye.reasons == (
        "The haft measures 1.26 inch × 0.79 inch at 12 % moisture.",
        "At 8 % white ash will have shrunk by 0.01 inch in length and 0.01 inch in width.",
        "Another 0.02 inch is left for scale and the file.",
        "The far side is flared by 0.04 inch in length and 0.08 inch in width for the wedge to fill.",
    )
    assert any("uneven" in reason and "0.5 mm" in reason for reason in _natural(31, 20).reasons)


def test_a_haft_of_which_no_eye_is_left_is_refused() -> None:
    with pytest.raises(FinishError, match="leave less for fit"):
        eye_for_haft(32, 3, ASH, 8, 8, "length", fit_mm=4)


def test_the_kerf_goes_two_thirds_down_the_eye() -> None:
    # Eye 50 mm deep, kerf about 33 mm (from memory).
    assert kerf_depth_mm(50) == pytest.approx(33, abs=0.4)


def test_a_wedge_of_one_in_six_has_nine_and_a_half_degrees_between_its_faces() -> None:
    # atan(1/6) = 9.46°, worked apart from the program.
    assert wedge_for(2, 2, 33).angle_deg == pytest.approx(9.46, abs=5e-3)


@given(
    st.floats(min_value=0.5, max_value=5),
    st.floats(min_value=0, max_value=4),
    st.floats(min_value=31, max_value=80),
)
def test_a_wedge_fills_the_flare_and_enters_its_kerf(flare: float, kerf: float, depth: float) -> None:
    made = wedge_for(flare, kerf, depth)
    assert made.thickness_mm - kerf == pytest.approx(flare)
    assert made.length_mm <= depth
    assert made.tip_mm <= kerf + 1e-9
    assert made.thickness_mm - made.tip_mm == pytest.approx(made.length_mm / 6, abs=1e-9)


def test_a_wedge_too_blunt_for_its_kerf_is_refused() -> None:
    with pytest.raises(FinishError, match="saw deeper"):
        wedge_for(5, 1, 24)


@pytest.mark.parametrize("wrong", [math.nan, math.inf, -1.0])
def test_a_size_that_is_none_is_refused_in_one_sentence(wrong: float) -> None:
    for ask in (
        lambda: eye_for_haft(wrong, 20, ASH, 8, 8, "length"),
        lambda: eye_for_haft(32, wrong, ASH, 8, 8, "length"),
        lambda: eye_for_haft(32, 20, ASH, wrong, 8, "length"),
        lambda: eye_for_haft(32, 20, ASH, 8, wrong, "length"),
        lambda: eye_for_haft(32, 20, ASH, 8, 8, "length", fit_mm=wrong),
        lambda: eye_for_haft(32, 20, ASH, 8, 8, "length", flare_width_mm=wrong),
        lambda: _natural(wrong, 20),
        lambda: _natural(31, 20, uneven_mm=wrong),
        lambda: kerf_depth_mm(wrong),
        lambda: kerf_depth_mm(50, wrong),
        lambda: wedge_for(wrong, 2, 33),
        lambda: wedge_for(2, wrong, 33),
        lambda: wedge_for(2, 2, wrong),
        lambda: wedge_for(2, 2, 33, wrong),
    ):
        with pytest.raises(FinishError) as refused:
            ask()
        assert str(refused.value).endswith(".")
        assert "\n" not in str(refused.value)


def test_a_word_that_is_none_is_refused() -> None:
    with pytest.raises(FinishError, match="turned or natural"):
        eye_for_haft(32, 20, ASH, 8, 8, "length", kind="sawn")  # type: ignore[arg-type]
    with pytest.raises(FinishError, match="the length or the width"):
        eye_for_haft(32, 20, ASH, 8, 8, "depth")  # type: ignore[arg-type]
