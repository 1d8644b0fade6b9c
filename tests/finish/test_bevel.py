"""Tests of how a bar curves while its edge is forged thin."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from coach.finish.bevel import (
    BarToBevel,
    Calibrated,
    bevel,
    bevel_range,
    calibrated,
    predicted,
    radius_from_sagitta_mm,
    second_radius_mm,
    share_from_radius,
    share_from_width,
)
from coach.quantities.refusal import OutOfRange


@st.composite
def bars(draw: st.DrawFn) -> BarToBevel:
    """Width, thickness, edge and bevel of a bar that can be forged, in mm."""
    width_mm = draw(st.floats(min_value=10, max_value=120))
    thickness_mm = draw(st.floats(min_value=2, max_value=15))
    edge_mm = draw(st.floats(min_value=0.02, max_value=0.95)) * thickness_mm
    bevel_mm = draw(st.floats(min_value=0.1, max_value=1)) * width_mm
    return BarToBevel(width_mm, thickness_mm, edge_mm, bevel_mm)


shares = st.floats(min_value=0.05, max_value=1)


# Worked apart from the program, by numeric integration of the curved body (derivation of this project).
WORKED = [
    # width, thickness, edge, bevel, share, ΔA, Δb, A_f, S, R, R_p
    (40, 6, 1, 20, 1.0, 50, 0, 190, 3133.33, 62.667, 96.0),
    (40, 6, 1, 20, 0.5, 50, 7.1429, 215, 4082.31, 163.293, 192.0),
    (50, 8, 2, 25, 0.5, 75, 7.5, 362.5, 8675.0, 231.333, 266.667),
    (60, 10, 2, 60, 0.4, 240, 24, 504, 16464, 171.5, 187.5),
]


@pytest.mark.parametrize("row", WORKED)
def test_a_bevel_curves_as_worked_by_hand(row: tuple[float, ...]) -> None:
    width, thickness, edge, bevelled, share, *expected = row
    bar = BarToBevel(width, thickness, edge, bevelled)
    made = bevel(bar, share)
    lengthwise_mm2 = share * bar.displaced_mm2
    section_mm2 = thickness * (width - bevelled) + (bevelled + made.widening_mm) * (thickness + edge) / 2
    assert section_mm2 == pytest.approx(width * thickness - lengthwise_mm2, rel=1e-9)
    assert (
        bar.displaced_mm2,
        made.widening_mm,
        section_mm2,
        made.radius_mm * lengthwise_mm2,
        made.radius_mm,
        made.pre_curve_mm,
    ) == pytest.approx(tuple(expected), rel=1e-5)


def _height(y: np.ndarray, bar: BarToBevel, wide_mm: float) -> np.ndarray:
    width, thickness, edge, bevelled = bar
    return np.asarray(
        np.interp(y, [0, width - bevelled, width - bevelled + wide_mm], [thickness, thickness, edge])
    )


@given(bars(), shares)
def test_the_curved_body_holds_the_metal_of_the_straight_bar(bar: BarToBevel, share: float) -> None:
    width, thickness, _edge, bevelled = bar
    made = bevel(bar, share)
    wide_mm = bevelled + made.widening_mm
    # Both pieces of the section are straight, so three points of Simpson's rule each integrate them exactly.
    volume = 0.0
    for start, end in ((0.0, width - bevelled), (width - bevelled, width + made.widening_mm)):
        y = np.array([start, (start + end) / 2, end])
        slices = _height(y, bar, wide_mm) * (1 + y / made.radius_mm)
        volume += float((slices * [1, 4, 1]).sum()) * (end - start) / 6
    assert volume == pytest.approx(width * thickness, rel=1e-9)


@given(bars(), shares)
def test_a_pre_curved_bar_holds_the_metal_of_the_straight_finished_one(bar: BarToBevel, share: float) -> None:
    width, thickness, *_ = bar
    made = bevel(bar, share)
    # Back convex: the edge, inside the bend, is shorter before; the back keeps its length.
    bent = width * thickness * (1 - width / 2 / made.pre_curve_mm)
    assert bent == pytest.approx(width * thickness - share * bar.displaced_mm2, rel=1e-9)


@given(bars(), shares)
def test_the_edge_grows_and_the_more_so_the_more_goes_lengthwise(bar: BarToBevel, share: float) -> None:
    made = bevel(bar, share)
    assert made.edge_growth > 1
    assert bevel(bar, share / 2).edge_growth < made.edge_growth


def test_a_bend_no_tighter_than_the_bar_is_wide_is_refused() -> None:
    # A triangle over the whole width with all metal going lengthwise needs R_p = b exactly.
    with pytest.raises(OutOfRange) as refused:
        bevel(BarToBevel(40, 6, 0, 40), 1.0)
    assert "bent beforehand to 40 mm" in str(refused.value)
    assert "\n" not in str(refused.value)


@pytest.mark.parametrize(
    ("bar", "share", "expected"),
    [
        # Least squares of the misfit strain, numeric (derivation of this project).
        (BarToBevel(40, 6, 1, 20), 1.0, 40.0),
        (BarToBevel(40, 6, 1, 20), 0.5, 80.0),
        (BarToBevel(40, 6, 2, 40), 1.0, 39.4),
    ],
)
def test_the_second_model_comes_out_as_worked(bar: BarToBevel, share: float, expected: float) -> None:
    assert second_radius_mm(bar, share) == pytest.approx(expected, abs=0.05)


@pytest.mark.parametrize(("part", "expected"), [(1.0, 1.0), (2 / 3, 1.667), (0.5, 2.0), (0.25, 2.5)])
def test_for_little_thinning_the_second_model_curves_more_sharply(part: float, expected: float) -> None:
    # κ₂ = (3 - 2 w/b) κ₁, closed form (derivation of this project).
    bar = BarToBevel(40.0, 6.0, 5.99, 40.0 * part)
    assert bevel(bar, 1.0).radius_mm / second_radius_mm(bar, 1.0) == pytest.approx(expected, rel=4e-3)


@given(bars(), shares)
def test_the_second_model_is_a_weighted_straight_fit(bar: BarToBevel, share: float) -> None:
    width, thickness, _edge, bevelled = bar
    # numpy's own least squares over slices of equal breadth, weighted by their height.
    y = (np.arange(4000) + 0.5) * width / 4000
    h = _height(y, bar, bevelled)
    slope = np.polyfit(y, share * np.log(thickness / h), 1, w=np.sqrt(h))[0]
    assert second_radius_mm(bar, share) == pytest.approx(1 / slope, rel=2e-3)


def test_the_second_model_takes_an_edge_of_nothing() -> None:
    assert second_radius_mm(BarToBevel(40, 6, 0, 20)) == pytest.approx(
        second_radius_mm(BarToBevel(40, 6, 1e-9, 20)), rel=1e-6
    )


@given(bars(), shares)
def test_the_range_is_never_finer_than_a_factor_of_two_and_holds_both_models(
    bar: BarToBevel, share: float
) -> None:
    first = bevel(bar, share)
    assume(first.pre_curve_mm / 1.3 > bar[0])
    ahead = bevel_range(bar, share)
    assert ahead.widest.value >= 2 * ahead.tightest.value * (1 - 1e-9)
    slack = 1 + 1e-9
    models = (
        first.radius_mm,
        first.radius_mm / (3 - 2 * bar[3] / bar[0]),
        second_radius_mm(bar, share),
        ahead.radius.value,
    )
    for radius_mm in models:
        assert ahead.tightest.value / slack <= radius_mm <= ahead.widest.value * slack
    assert ahead.pre_curve_tightest is None or ahead.pre_curve_tightest.value > bar[0]
    assert ahead.pre_curve.value / ahead.radius.value == pytest.approx(first.pre_curve_mm / first.radius_mm)


def test_the_range_of_half_a_bar_bevelled_runs_from_half_the_radius_to_the_whole() -> None:
    # w/b = 1/2, so R₁/(3 - 2w/b) = R₁/2.
    ahead = bevel_range(BarToBevel(40, 6, 1, 20), 0.5)
    assert ahead.tightest.value == pytest.approx(163.293 / 2, abs=2)
    assert ahead.widest.value == pytest.approx(163.293, rel=1e-5)


def test_a_pre_curve_out_of_reach_at_the_tight_end_is_left_open() -> None:
    ahead = bevel_range(BarToBevel(40, 6, 1, 40), 0.9)
    assert ahead.pre_curve_tightest is None
    assert ahead.pre_curve_widest.value > ahead.pre_curve.value > 40


def test_a_straight_edge_tells_the_radius() -> None:
    # (100²/4 + 10²)/(2 × 10), elementary geometry.
    assert radius_from_sagitta_mm(100, 10) == pytest.approx(130.0, abs=1e-12)


@given(st.floats(min_value=10, max_value=500), st.floats(min_value=1e-3, max_value=0.99))
def test_the_middle_of_the_curve_stands_off_as_far_as_was_measured(chord_mm: float, part: float) -> None:
    stands_off_mm = part * chord_mm / 2
    radius_mm = radius_from_sagitta_mm(chord_mm, stands_off_mm)
    # s = R - √(R² - c²/4), elementary geometry, multiplied out.
    assert stands_off_mm * (2 * radius_mm - stands_off_mm) == pytest.approx(chord_mm**2 / 4, rel=1e-9)


def test_a_sagitta_of_more_than_half_a_circle_is_refused() -> None:
    with pytest.raises(OutOfRange, match="shorter chord"):
        radius_from_sagitta_mm(100, 51)


def test_one_measured_radius_foretells_the_next_step() -> None:
    # 40 × 6 to an edge of 3 over 20 mm, measured at 200 mm, then to 1 (derivation of this project).
    share = share_from_radius(BarToBevel(40, 6, 3, 20), 200)
    assert share == pytest.approx(0.69277, abs=5e-6)
    assert bevel(BarToBevel(40, 6, 3, 20), share).widening_mm == pytest.approx(2.048, abs=5e-4)
    assert bevel(BarToBevel(40, 6, 1, 20), share).radius_mm == pytest.approx(106.83, abs=5e-3)


@given(bars(), shares)
def test_a_share_is_found_again_from_the_width_and_from_the_radius(bar: BarToBevel, share: float) -> None:
    made = bevel(bar, share)
    found = share_from_width(bar, bar.width_mm + made.widening_mm)
    assert found == pytest.approx(share, abs=1e-8)
    assert share_from_radius(bar, made.radius_mm) == pytest.approx(share, rel=1e-7)


@given(bars(), shares, st.floats(min_value=0.5, max_value=3))
def test_a_calibration_repeats_its_own_heat(bar: BarToBevel, share: float, factor: float) -> None:
    first = bevel(bar, share)
    assume(first.pre_curve_mm / factor > bar[0] * 1.001)
    measured_mm = first.radius_mm / factor
    learned = calibrated(bar, width_after_mm=bar[0] + first.widening_mm, radius_mm=measured_mm)
    assert learned.factor == pytest.approx(factor, rel=1e-6)
    again = predicted(learned, bar)
    assert again.width_mm == pytest.approx(bar[0] + first.widening_mm, rel=1e-9)
    assert again.radius_mm == pytest.approx(measured_mm, rel=1e-9)
    assert again.pre_curve_mm == pytest.approx(first.pre_curve_mm / factor, rel=1e-6)


def test_a_calibrated_pre_curve_out_of_reach_is_refused() -> None:
    # R_p = 96 for this bevel; three times as sharp is 32 mm, less than the bar is wide.
    with pytest.raises(OutOfRange, match="bent beforehand to 32 mm"):
        predicted(Calibrated(1.0, 3.0), BarToBevel(40, 6, 1, 20))


def test_readings_that_fit_no_bevel_are_refused() -> None:
    with pytest.raises(OutOfRange, match="measure width, root and edge again"):
        share_from_width(BarToBevel(40, 6, 1, 20), 39)
    with pytest.raises(OutOfRange, match="measure width, root and edge again"):
        share_from_width(BarToBevel(40, 6, 1, 20), 60)
    with pytest.raises(OutOfRange, match="calibrate with both"):
        share_from_radius(BarToBevel(40, 6, 1, 20), 50)


@pytest.mark.parametrize(
    "wrong",
    [
        (0, 6, 1, 20, 0.5),
        (40, math.inf, 1, 20, 0.5),
        (40, 6, -1, 20, 0.5),
        (40, 6, 6, 20, 0.5),
        (40, 6, 7, 20, 0.5),
        (40, 6, 1, 41, 0.5),
        (40, 6, 1, 0, 0.5),
        (40, 6, 1, 20, 0),
        (40, 6, 1, 20, 1.1),
        (math.nan, 6, 1, 20, 0.5),
        (40, 6, math.nan, 20, 0.5),
        (40, 6, 1, math.nan, 0.5),
        (40, 6, 1, 20, math.nan),
    ],
)
def test_sizes_that_make_no_bevel_are_refused_in_one_sentence(wrong: tuple[float, ...]) -> None:
    for ask in (bevel, bevel_range, second_radius_mm):
        with pytest.raises(OutOfRange) as refused:
            ask(BarToBevel(*wrong[:4]), wrong[4])
        assert str(refused.value).endswith(".")
        assert "\n" not in str(refused.value)


@pytest.mark.parametrize("wrong", [math.nan, math.inf, 0.0, -1.0])
def test_a_reading_that_is_no_number_is_refused(wrong: float) -> None:
    for ask in (
        lambda: radius_from_sagitta_mm(wrong, 10),
        lambda: radius_from_sagitta_mm(100, wrong),
        lambda: share_from_radius(BarToBevel(40, 6, 3, 20), wrong),
        lambda: share_from_width(BarToBevel(40, 6, 1, 20), wrong),
        lambda: calibrated(BarToBevel(40, 6, 3, 20), width_after_mm=43, radius_mm=wrong),
        lambda: predicted(Calibrated(0.5, wrong), BarToBevel(40, 6, 1, 20)),
    ):
        with pytest.raises(OutOfRange):
            ask()
