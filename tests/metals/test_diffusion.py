"""Tests of how fast carbon moves through austenite."""

from __future__ import annotations

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

from coach.metals.diffusion import (
    NoProfile,
    OutOfField,
    agren_m2_s,
    arrhenius_m2_s,
    carbon_at,
    couple_carbon,
    depth_for,
    fick_share,
    inverse_erf,
    seconds_for,
    tibbetts_m2_s,
)

temperatures_c = st.floats(min_value=727, max_value=1394)
shares = st.floats(min_value=0.02, max_value=1.5)
diffusivities_m2_s = st.floats(min_value=1e-13, max_value=1e-9)
durations_s = st.floats(min_value=1, max_value=1e5)
depths_m = st.floats(min_value=1e-6, max_value=5e-3)

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


@pytest.mark.parametrize(
    ("temperature_c", "expected_m2_s", "printed_share"),
    [
        # D0 2.3e-5 m²/s and 148 kJ/mol (from memory); worked apart from the program with R = 8.314.
        (800, 1.44e-12, 3e-3),
        (900, 5.91e-12, 2e-3),
        (1000, 1.947e-11, 1e-3),
        (1100, 5.390e-11, 1e-3),
        (1200, 1.299e-10, 1e-3),
        # As Callister's book prints them, to two figures (from memory).
        (900, 5.9e-12, 1e-2),
        (1100, 5.3e-11, 2e-2),
    ],
)
def test_the_constants_of_the_book_give_its_diffusivities(
    temperature_c: float, expected_m2_s: float, printed_share: float
) -> None:
    assert arrhenius_m2_s(temperature_c) == pytest.approx(expected_m2_s, rel=printed_share)


@pytest.mark.parametrize(
    ("temperature_c", "carbon_share", "tibbetts_expected", "agren_expected"),
    # Worked apart from the program from both published laws (from memory), to three figures.
    [(1000, 0.4, 3.13e-11, 3.01e-11), (1000, 0.8, 4.69e-11, 4.40e-11), (1100, 0.8, 1.17e-10, 1.13e-10)],
)
def test_both_laws_of_carbon_rich_austenite_give_their_worked_values(
    temperature_c: float, carbon_share: float, tibbetts_expected: float, agren_expected: float
) -> None:
    # To 0.4 %: the last figure, and a gas constant of 1.987 or of 8.314/4.184 cal/(mol K).
    assert tibbetts_m2_s(temperature_c, carbon_share) == pytest.approx(tibbetts_expected, rel=4e-3)
    assert agren_m2_s(temperature_c, carbon_share) == pytest.approx(agren_expected, rel=4e-3)


@given(st.floats(min_value=900, max_value=1200), st.floats(min_value=0, max_value=0.9))
def test_the_two_laws_agree_about_tool_steel_at_forging_heat(
    temperature_c: float, carbon_share: float
) -> None:
    assert tibbetts_m2_s(temperature_c, carbon_share) == pytest.approx(
        agren_m2_s(temperature_c, carbon_share), rel=0.13
    )


def test_a_law_that_knows_no_carbon_is_half_as_fast_as_tool_steel() -> None:
    for temperature_c in (1000, 1100, 1200):
        assert 0.4 < arrhenius_m2_s(temperature_c) / agren_m2_s(temperature_c, 0.8) < 0.55


@given(temperatures_c, temperatures_c, st.floats(min_value=0, max_value=2.14))
def test_carbon_moves_faster_where_it_is_hotter(one_c: float, other_c: float, carbon_share: float) -> None:
    colder_c, hotter_c = sorted((one_c, other_c))
    assert agren_m2_s(colder_c, carbon_share) <= agren_m2_s(hotter_c, carbon_share)
    assert tibbetts_m2_s(colder_c, carbon_share) <= tibbetts_m2_s(hotter_c, carbon_share)
    assert arrhenius_m2_s(colder_c) <= arrhenius_m2_s(hotter_c)


@given(temperatures_c, st.floats(min_value=0, max_value=2.13))
def test_carbon_moves_faster_where_there_is_more_of_it(temperature_c: float, carbon_share: float) -> None:
    assert agren_m2_s(temperature_c, carbon_share) < agren_m2_s(temperature_c, carbon_share + 0.01)


@pytest.mark.parametrize("temperature_c", [20, 726.9, 1394.1, -300, math.inf, -math.inf, math.nan])
def test_a_heat_without_austenite_is_refused_in_one_sentence(temperature_c: float) -> None:
    for ask in (
        arrhenius_m2_s,
        lambda t: agren_m2_s(t, 0.8),
        lambda t: tibbetts_m2_s(t, 0.8),
    ):
        with pytest.raises(OutOfField, match="727 to 1394 °C") as refused:
            ask(temperature_c)
        assert str(refused.value).endswith(".")
        assert "\n" not in str(refused.value)


@pytest.mark.parametrize("carbon_share", [-0.01, 2.15, 84, math.inf, math.nan])
def test_more_carbon_than_austenite_holds_is_refused(carbon_share: float) -> None:
    for law in (agren_m2_s, tibbetts_m2_s):
        with pytest.raises(OutOfField, match="in per cent"):
            law(1000, carbon_share)


@pytest.mark.parametrize(("d0", "q"), [(0, 1e5), (1e-5, 0), (math.nan, 1e5), (1e-5, math.inf), (-1e-5, 1e5)])
def test_constants_that_give_no_diffusivity_are_refused(d0: float, q: float) -> None:
    with pytest.raises(OutOfField, match="above 0"):
        arrhenius_m2_s(1000, d0, q)


def test_carburising_takes_as_long_as_in_the_book() -> None:
    # Callister, Example 5.2 (confirmed second-hand), to 10 s; the book rounds to 25 400 s or 7.1 h.
    assert seconds_for(0.5e-3, 0.80, 0.25, 1.20, 1.6e-11) == pytest.approx(25_370, abs=10)
    assert seconds_for(0.5e-3, 0.80, 0.25, 1.20, 1.6e-11) == pytest.approx(25_400, rel=2e-3)


def test_steel_is_bared_of_carbon_as_deep_as_in_the_book() -> None:
    # Callister, decarburisation of 0.35 % steel, 10 h at 1400 K (from memory): 1.2614 mm to 0.15 %.
    assert depth_for(0.15, 0.35, 0.0, 6.9e-11, 36_000) * 1000 == pytest.approx(1.2614, abs=1e-3)


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
    d_m2_s = arrhenius_m2_s(temperature_c)
    assert depth_for(0.42, 0.84, 0, d_m2_s, minutes * 60) * 1000 == pytest.approx(half_mm, abs=1e-4)
    assert depth_for(0.756, 0.84, 0, d_m2_s, minutes * 60) * 1000 == pytest.approx(nine_tenths_mm, abs=1e-4)


@pytest.mark.parametrize(
    ("distance_mm", "expected_share"),
    # Worked apart from the program: 0.84 against 0.03 %, 1100 °C, 30 minutes, Callister's D.
    [(-0.5, 0.736), (-0.2, 0.577), (0, 0.435), (0.2, 0.293), (0.5, 0.134)],
)
def test_carbon_bleeds_over_a_weld_line_as_worked_by_hand(distance_mm: float, expected_share: float) -> None:
    got = couple_carbon(distance_mm / 1000, 0.84, 0.03, arrhenius_m2_s(1100), 1800)
    assert got == pytest.approx(expected_share, abs=6e-4)


@given(depths_m, shares, shares, diffusivities_m2_s, durations_s)
def test_the_profile_is_that_of_an_independent_error_function(
    depth_m: float, start_share: float, surface_share: float, d_m2_s: float, seconds: float
) -> None:
    # scipy's erf.
    eaten = 1 - float(erf(depth_m / (2 * math.sqrt(d_m2_s * seconds))))
    expected = start_share + (surface_share - start_share) * eaten
    assert carbon_at(depth_m, start_share, surface_share, d_m2_s, seconds) == pytest.approx(
        expected, abs=1e-12
    )


def test_the_profile_is_that_of_finite_differences() -> None:
    d_m2_s = 1.2e-10
    depths, carbon = bared_profile(lambda share: np.full_like(share, d_m2_s), 0.84, 600)
    for depth_m, expected in list(zip(depths, carbon, strict=True))[::20]:
        assert carbon_at(float(depth_m), 0.84, 0, d_m2_s, 600) == pytest.approx(expected, abs=2e-4)


@pytest.mark.parametrize("carbon_share", [0.3, 0.6, 0.84, 1.0])
@pytest.mark.parametrize("temperature_c", [850, 1000, 1100, 1250])
def test_the_nominal_carbon_gives_an_upper_bound_of_the_skin(
    temperature_c: float, carbon_share: float
) -> None:
    # Against finite differences with Ågren's D of the carbon that is there, as `agren_m2_s` says it.
    depths, carbon = bared_profile(agren_law(temperature_c), carbon_share, 600)
    d_m2_s = agren_m2_s(temperature_c, carbon_share)
    for kept, most in ((0.9, 1.25), (0.5, 1.65)):
        true_m = float(np.interp(kept * carbon_share, carbon, depths))
        assert 1.04 < depth_for(kept * carbon_share, carbon_share, 0, d_m2_s, 600) / true_m < most


@given(st.floats(min_value=0, max_value=1, exclude_max=True))
def test_the_inverse_error_function_is_good_to_the_twelfth_figure(share: float) -> None:
    # scipy's erfinv.
    assert inverse_erf(share) == pytest.approx(float(erfinv(share)), abs=1e-12)


def test_the_inverse_error_function_reaches_up_to_the_last_number_below_one() -> None:
    last = math.nextafter(1, 0)
    assert inverse_erf(last) == pytest.approx(float(erfinv(last)), abs=1e-12)
    assert inverse_erf(0) == 0


@given(st.floats(min_value=0.01, max_value=0.99), shares, shares, diffusivities_m2_s, depths_m)
def test_a_depth_has_the_wanted_carbon_when_its_time_is_up(
    way: float, start_share: float, surface_share: float, d_m2_s: float, depth_m: float
) -> None:
    if abs(start_share - surface_share) < 0.01:
        surface_share = start_share + 0.01
    wanted_share = start_share + way * (surface_share - start_share)
    seconds = seconds_for(depth_m, wanted_share, start_share, surface_share, d_m2_s)
    assert carbon_at(depth_m, start_share, surface_share, d_m2_s, seconds) == pytest.approx(wanted_share)
    assert depth_for(wanted_share, start_share, surface_share, d_m2_s, seconds) == pytest.approx(depth_m)


@given(diffusivities_m2_s, durations_s)
def test_four_times_the_time_goes_twice_as_deep(d_m2_s: float, seconds: float) -> None:
    once = depth_for(0.4, 0.8, 0, d_m2_s, seconds)
    assert depth_for(0.4, 0.8, 0, d_m2_s, 4 * seconds) == pytest.approx(2 * once)


@given(depths_m, depths_m, diffusivities_m2_s, durations_s)
def test_carbon_rises_with_the_depth_below_a_bared_face(
    one_m: float, other_m: float, d_m2_s: float, seconds: float
) -> None:
    shallow_m, deep_m = sorted((one_m, other_m))
    shallow, deep = (carbon_at(x, 0.84, 0, d_m2_s, seconds) for x in (shallow_m, deep_m))
    assert 0 <= shallow <= deep <= 0.84


@given(depths_m, shares, shares, diffusivities_m2_s, durations_s)
def test_a_weld_takes_from_one_side_what_it_gives_to_the_other(
    distance_m: float, near_share: float, far_share: float, d_m2_s: float, seconds: float
) -> None:
    near = couple_carbon(-distance_m, near_share, far_share, d_m2_s, seconds)
    far = couple_carbon(distance_m, near_share, far_share, d_m2_s, seconds)
    assert near + far == pytest.approx(near_share + far_share)
    low, high = sorted((near_share, far_share))
    # A rounding of the last figure is let through.
    assert low * (1 - 1e-15) <= near <= high * (1 + 1e-15)
    assert couple_carbon(0, near_share, far_share, d_m2_s, seconds) == pytest.approx(
        (near_share + far_share) / 2
    )


def test_nothing_has_moved_before_the_first_second() -> None:
    assert carbon_at(1e-4, 0.84, 0, 1e-10, 0) == 0.84
    assert carbon_at(0, 0.84, 0, 1e-10, 0) == 0
    assert fick_share(0, 1e-10, 1) == 1
    assert depth_for(0.4, 0.84, 0, 1e-10, 0) == 0
    assert seconds_for(0, 0.4, 0.84, 0, 1e-10) == 0
    assert couple_carbon(-1e-4, 0.84, 0.03, 1e-10, 0) == 0.84
    assert couple_carbon(1e-4, 0.84, 0.03, 1e-10, 0) == 0.03
    assert couple_carbon(0, 0.84, 0.02, 1e-10, 0) == pytest.approx(0.43)


@pytest.mark.parametrize(
    ("wanted", "start", "surface"),
    [
        (0.84, 0.84, 0),
        (0, 0.84, 0),
        (1e-300, 0.84, 0),
        (math.nextafter(0.84, 0), 0.84, 0),
        (0.9, 0.84, 0),
        (0.4, 0.4, 0.4),
        (0.2, 0.3, 1.2),
    ],
)
def test_carbon_that_no_depth_has_is_refused(wanted: float, start: float, surface: float) -> None:
    with pytest.raises(NoProfile, match="between"):
        depth_for(wanted, start, surface, 1e-10, 600)
    with pytest.raises(NoProfile, match="between"):
        seconds_for(1e-4, wanted, start, surface, 1e-10)


@pytest.mark.parametrize("wrong", [-1e-9, math.inf, -math.inf, math.nan])
def test_a_number_that_cannot_be_is_refused_wherever_it_stands(wrong: float) -> None:
    asked: list[Callable[[], float]] = [
        lambda: fick_share(wrong, 1e-10, 60),
        lambda: fick_share(1e-4, wrong, 60),
        lambda: fick_share(1e-4, 1e-10, wrong),
        lambda: fick_share(0, wrong, 60),
        lambda: fick_share(0, 1e-10, wrong),
        lambda: fick_share(0, 0, 60),
        lambda: carbon_at(1e-4, wrong, 0, 1e-10, 60),
        lambda: carbon_at(1e-4, 0.8, wrong, 1e-10, 60),
        lambda: seconds_for(wrong, 0.4, 0.8, 0, 1e-10),
        lambda: seconds_for(1e-4, wrong, 0.8, 0, 1e-10),
        lambda: seconds_for(1e-4, 0.4, 0.8, 0, wrong),
        lambda: seconds_for(1e-4, 0.4, 0.8, 0, 0),
        lambda: depth_for(wrong, 0.8, 0, 1e-10, 60),
        lambda: depth_for(0.4, 0.8, 0, 1e-10, wrong),
        lambda: couple_carbon(1e-4, wrong, 0.03, 1e-10, 60),
        lambda: couple_carbon(1e-4, 0.8, 0.03, 1e-10, wrong),
        lambda: couple_carbon(0, 0.8, 0.03, wrong, 60),
        lambda: inverse_erf(wrong),
    ]
    for ask in asked:
        with pytest.raises(NoProfile) as refused:
            ask()
        assert str(refused.value).endswith(".")
        assert "\n" not in str(refused.value)


@pytest.mark.parametrize("distance_m", [math.inf, -math.inf, math.nan])
def test_a_distance_that_is_no_number_is_refused(distance_m: float) -> None:
    with pytest.raises(NoProfile, match="weld line"):
        couple_carbon(distance_m, 0.8, 0.03, 1e-10, 60)


def test_importing_it_costs_no_statistics() -> None:
    program = "import sys, coach.metals.skin; sys.exit('statistics' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", program], check=False).returncode == 0
