"""Tests of how deep a fire takes the carbon out of the skin of a steel."""

from __future__ import annotations

import itertools
import math
import subprocess
import sys
from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.typing import NDArray
from scipy.special import erf, erfinv

from coach.metals.skin import (
    Lying,
    agren_m2_s,
    allowance_mm,
    carbon_profile,
    inverse_erf,
    skin_mm,
    spread_mm2,
    thinned_mm2,
)
from coach.quantities.refusal import OutOfRange

Law = Callable[[NDArray[np.float64]], NDArray[np.float64]]


def bared_profile(
    law: Law, start_share: float, seconds: float
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Depths in m and carbon in %, by explicit finite differences, below a face held at no carbon."""
    fastest_m2_s = float(law(np.array([start_share]))[0])
    cells = 400
    step_m = 8 * math.sqrt(fastest_m2_s * seconds) / cells
    steps = math.ceil(fastest_m2_s * seconds / step_m**2 / 0.4)
    carbon = np.full(cells + 1, start_share)
    carbon[0] = 0.0
    for _ in range(steps):
        flow = law((carbon[1:] + carbon[:-1]) / 2) * np.diff(carbon) / step_m
        carbon[1:-1] += seconds / steps / step_m * np.diff(flow)
    return np.linspace(0.0, cells * step_m, cells + 1), carbon


def agren_law(temperature_c: float) -> Law:
    """Ågren's law written a second time, over arrays."""
    kelvin = temperature_c + 273.15

    def law(carbon_share: NDArray[np.float64]) -> NDArray[np.float64]:
        moles_c, moles_fe = carbon_share / 12.011, (100 - carbon_share) / 55.845
        mole_fraction = moles_c / (moles_c + moles_fe)
        y = mole_fraction / (1 - mole_fraction)
        before: NDArray[np.float64] = 4.53e-7 * (1 + y * (1 - y) * 8339.9 / kelvin)
        return before * np.exp(-(1 / kelvin - 2.221e-4) * (17767 - 26436 * y))

    return law


shares = st.floats(min_value=0, max_value=2.14)
kept = st.floats(min_value=0.01, max_value=0.99)
spreads_mm2 = st.floats(min_value=1e-6, max_value=10)
lyings = st.builds(Lying, st.floats(min_value=0, max_value=1450), st.floats(min_value=0, max_value=120))
jobs = st.lists(lyings, max_size=6)


def test_four_heats_of_a_tool_steel_leave_the_skin_worked_by_hand() -> None:
    # Ågren's D of 0.8 % at 1100 °C is 1.13e-10 m²/s (worked apart from the program); 4 × 3 min, erf⁻¹ 0.9 =
    # 1.16309: 2 × 1.16309 × sqrt(1.13e-4 mm²/s × 720 s) = 0.664 mm.
    assert skin_mm(spread_mm2(0.8, [Lying(1100, 3)] * 4)) == pytest.approx(0.664, rel=3e-3)


def test_a_skin_is_the_depth_that_diffusion_gives_for_the_same_fire() -> None:
    d_m2_s = agren_m2_s(1050, 0.84)
    # 2 erf⁻¹(0.8) sqrt(D t), with scipy's erfinv.
    expected_m = 2 * float(erfinv(0.8)) * math.sqrt(d_m2_s * 900)
    assert skin_mm(spread_mm2(0.84, [Lying(1050, 15)]), 0.8) == pytest.approx(expected_m * 1000)


@given(shares, jobs)
def test_the_order_of_the_heats_does_not_matter(carbon_share: float, job: list[Lying]) -> None:
    assert spread_mm2(carbon_share, job) == spread_mm2(carbon_share, reversed(job))


@given(shares, jobs, jobs)
def test_the_heats_of_two_days_add_up(carbon_share: float, one: list[Lying], other: list[Lying]) -> None:
    together = spread_mm2(carbon_share, one + other)
    assert together == pytest.approx(spread_mm2(carbon_share, one) + spread_mm2(carbon_share, other))


@given(shares, lyings, st.floats(min_value=0, max_value=300))
def test_a_hotter_fire_never_leaves_a_thinner_skin(carbon_share: float, lying: Lying, more_c: float) -> None:
    hotter = Lying(lying.temperature_c + more_c, lying.minutes)
    assert spread_mm2(carbon_share, [lying]) <= spread_mm2(carbon_share, [hotter])


@given(shares, st.floats(min_value=727, max_value=1394), st.floats(min_value=0.1, max_value=60))
def test_four_times_the_time_makes_twice_the_skin(
    carbon_share: float, temperature_c: float, minutes: float
) -> None:
    once = skin_mm(spread_mm2(carbon_share, [Lying(temperature_c, minutes)]))
    assert skin_mm(spread_mm2(carbon_share, [Lying(temperature_c, 4 * minutes)])) == pytest.approx(2 * once)


def test_no_time_and_no_heat_make_no_skin() -> None:
    assert spread_mm2(0.84, []) == 0
    assert spread_mm2(0.84, [Lying(1100, 0)]) == 0
    assert spread_mm2(0.84, [Lying(726, 600), Lying(-10, 600)]) == 0
    assert spread_mm2(0.84, [Lying(727, 1)]) > 0
    assert skin_mm(0) == 0


def test_a_heat_hotter_than_austenite_counts_as_its_hottest() -> None:
    assert spread_mm2(0.84, [Lying(1500, 2)]) == spread_mm2(0.84, [Lying(1394, 2)])


@given(spreads_mm2, kept, kept)
def test_more_carbon_is_kept_only_deeper(spread: float, one: float, other: float) -> None:
    less, more = sorted((one, other))
    assert skin_mm(spread, less) <= skin_mm(spread, more)


@given(spreads_mm2, kept)
def test_at_the_end_of_the_skin_the_carbon_is_the_kept_share(spread: float, kept_share: float) -> None:
    depth_mm = skin_mm(spread, kept_share)
    assert carbon_profile(0.84, spread, [depth_mm]) == pytest.approx((0.84 * kept_share,))
    # scipy's erfinv.
    assert depth_mm == pytest.approx(2 * float(erfinv(kept_share)) * math.sqrt(spread))


def test_the_profile_rises_from_nothing_to_the_nominal_carbon() -> None:
    profile = carbon_profile(0.84, 0.08, [0, 0.1, 0.2, 0.4, 0.8, 1.6, 10])
    assert profile[0] == 0
    assert all(outer < inner for outer, inner in itertools.pairwise(profile[:-1]))
    assert profile[-1] == pytest.approx(0.84)
    # scipy's erf.
    assert profile[2] == pytest.approx(0.84 * float(erf(0.2 / (2 * math.sqrt(0.08)))))
    assert carbon_profile(0.84, 0, [0, 1]) == (0.84, 0.84)
    assert carbon_profile(0.84, 0.08, []) == ()


@given(spreads_mm2, st.floats(min_value=0.05, max_value=3), kept)
def test_forging_a_section_thinner_thins_its_skin_as_much(
    spread: float, ratio: float, kept_share: float
) -> None:
    forged = skin_mm(thinned_mm2(spread, ratio), kept_share)
    assert forged == pytest.approx(ratio * skin_mm(spread, kept_share))


@given(spreads_mm2, st.floats(min_value=0.05, max_value=1))
def test_drawing_down_never_thickens_a_skin(spread: float, ratio: float) -> None:
    assert thinned_mm2(spread, ratio) <= spread
    assert thinned_mm2(spread, 1) == spread


@given(spreads_mm2, st.floats(min_value=0.05, max_value=1), st.floats(min_value=0, max_value=5))
def test_forging_moves_every_layer_and_keeps_its_carbon(spread: float, ratio: float, depth_mm: float) -> None:
    before = carbon_profile(0.84, spread, [depth_mm])
    assert carbon_profile(0.84, thinned_mm2(spread, ratio), [ratio * depth_mm]) == pytest.approx(before)


def test_the_grinder_is_left_the_skin_with_sound_steel_under_it() -> None:
    assert allowance_mm(0) == 0.1
    assert allowance_mm(0.6) == pytest.approx(0.7)


@pytest.mark.parametrize("wrong", [-0.01, math.inf, -math.inf, math.nan])
def test_a_number_that_cannot_be_is_refused_in_one_sentence(wrong: float) -> None:
    asked: list[Callable[[], object]] = [
        lambda: spread_mm2(wrong, []),
        lambda: spread_mm2(0.84, [Lying(1100, wrong)]),
        lambda: spread_mm2(0.84, [Lying(20, wrong)]),
        lambda: skin_mm(wrong),
        lambda: skin_mm(0.1, wrong),
        lambda: thinned_mm2(wrong, 0.5),
        lambda: thinned_mm2(0.1, wrong),
        lambda: carbon_profile(wrong, 0.1, [0.1]),
        lambda: carbon_profile(0.84, wrong, [0.1]),
        lambda: carbon_profile(0.84, 0.1, [wrong]),
        lambda: carbon_profile(0.84, 0, [wrong]),
        lambda: allowance_mm(wrong),
    ]
    for ask in asked:
        with pytest.raises(OutOfRange) as refused:
            ask()
        assert str(refused.value).endswith(".")
        assert "\n" not in str(refused.value)


@pytest.mark.parametrize("temperature_c", [-274, math.inf, -math.inf, math.nan])
def test_a_temperature_that_is_none_is_refused(temperature_c: float) -> None:
    with pytest.raises(OutOfRange, match="temperature of the piece"):
        spread_mm2(0.84, [Lying(temperature_c, 3)])


@pytest.mark.parametrize("share", [0, 1, 90])
def test_a_share_of_nothing_all_or_per_cent_is_refused(share: float) -> None:
    with pytest.raises(OutOfRange, match="between 0 and 1"):
        skin_mm(0.1, share)


@pytest.mark.parametrize("carbon_share", [2.15, 84])
def test_more_carbon_than_steel_has_is_refused(carbon_share: float) -> None:
    with pytest.raises(OutOfRange, match="give it in per cent"):
        spread_mm2(carbon_share, [Lying(20, 3)])


def test_a_section_forged_to_nothing_is_refused() -> None:
    with pytest.raises(OutOfRange, match="ratio"):
        thinned_mm2(0.1, 0)


@pytest.mark.parametrize(
    ("temperature_c", "minutes", "half_mm", "nine_tenths_mm"),
    # Worked apart from the program for a steel of 0.84 % with Callister's D.
    [
        (1100, 10, 0.1715, 0.4183),
        (1200, 5, 0.1883, 0.4593),
        (1000, 30, 0.1786, 0.4355),
        (850, 10, 0.0405, 0.0988),
    ],
)
def test_the_skin_is_as_deep_as_worked_by_hand(
    temperature_c: float, minutes: float, half_mm: float, nine_tenths_mm: float
) -> None:
    spread = 2.3e-5 * math.exp(-148_000 / (8.314 * (temperature_c + 273.15))) * 1e6 * minutes * 60
    assert skin_mm(spread, 0.5) == pytest.approx(half_mm, abs=1e-4)
    assert skin_mm(spread, 0.9) == pytest.approx(nine_tenths_mm, abs=1e-4)


def test_steel_is_bared_of_carbon_as_deep_as_in_the_book() -> None:
    # Callister, decarburisation of 0.35 % steel, 10 h at 1400 K (from memory): 1.2614 mm to 0.15 %.
    assert skin_mm(6.9e-11 * 1e6 * 36_000, 0.15 / 0.35) == pytest.approx(1.2614, abs=1e-3)


def test_the_profile_is_that_of_finite_differences() -> None:
    d_m2_s = 1.2e-10
    depths, carbon = bared_profile(lambda share: np.full_like(share, d_m2_s), 0.84, 600)
    for depth_m, expected in list(zip(depths, carbon, strict=True))[::20]:
        (found,) = carbon_profile(0.84, d_m2_s * 1e6 * 600, [float(depth_m) * 1000])
        assert found == pytest.approx(expected, abs=2e-4)


@pytest.mark.parametrize("carbon_share", [0.3, 0.6, 0.84, 1.0])
@pytest.mark.parametrize("temperature_c", [850, 1000, 1100, 1250])
def test_the_nominal_carbon_gives_an_upper_bound_of_the_skin(
    temperature_c: float, carbon_share: float
) -> None:
    # Against finite differences with Ågren's D of the carbon that is there, as `agren_m2_s` says it.
    depths, carbon = bared_profile(agren_law(temperature_c), carbon_share, 600)
    spread = spread_mm2(carbon_share, [Lying(temperature_c, 10)])
    for kept, most in ((0.9, 1.25), (0.5, 1.65)):
        true_mm = 1000 * float(np.interp(kept * carbon_share, carbon, depths))
        assert 1.04 < skin_mm(spread, kept) / true_mm < most


@given(st.floats(min_value=0, max_value=1, exclude_max=True))
def test_the_inverse_error_function_is_good_to_the_twelfth_figure(share: float) -> None:
    # scipy's erfinv.
    assert inverse_erf(share) == pytest.approx(float(erfinv(share)), abs=1e-12)


def test_the_inverse_error_function_reaches_up_to_the_last_number_below_one() -> None:
    last = math.nextafter(1, 0)
    assert inverse_erf(last) == pytest.approx(float(erfinv(last)), abs=1e-12)
    assert inverse_erf(0) == 0


def test_importing_it_costs_no_statistics() -> None:
    program = "import sys, coach.metals.skin; sys.exit('statistics' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", program], check=False).returncode == 0
