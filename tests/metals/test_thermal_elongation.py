"""Tests of how much longer steel is when it is hot."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coach.metals.thermal import elongation, elongation_slope
from coach.quantities.refusal import OutOfRange
from coach.reckoner.asking.reading import TypedHeat
from coach.reckoner.expansion import reckon


def cold_size_mm(hot_mm: float, temperature_c: float) -> float:
    return reckon(hot_mm, TypedHeat(temperature_c, 0.0)).cold.value


def hot_size_mm(cold_mm: float, temperature_c: float) -> float:
    return reckon(cold_mm, TypedHeat(temperature_c, 0.0)).hot.value


# EN 1993-1-2:2005 §3.4.1.1, seen in a secondary reprint; each value worked by hand from the printed clause.
EN_ELONGATION = {
    20: 0.0,
    100: 0.9984e-3,
    200: 2.3184e-3,
    400: 5.1984e-3,
    600: 8.3984e-3,
    700: 10.1184e-3,
    735: 10.7393e-3,
    750: 11.0e-3,
    800: 11.0e-3,
    860: 11.0e-3,
    900: 11.8e-3,
    1000: 13.8e-3,
    1100: 15.8e-3,
    1200: 17.8e-3,
}

sizes_mm = st.floats(min_value=0.1, max_value=100_000)
hot_c = st.floats(min_value=25, max_value=1200)


@pytest.mark.parametrize(("temperature_c", "expected"), EN_ELONGATION.items())
def test_elongation_is_that_of_the_european_standard(temperature_c: float, expected: float) -> None:
    assert elongation(temperature_c) == pytest.approx(expected, abs=1e-9)


def test_each_branch_of_the_standard_holds_up_to_its_end() -> None:
    # The clause itself: the first branch ends just above the plateau, a step of 8e-6 that belongs to it.
    assert elongation(math.nextafter(750, 0)) == pytest.approx(11.0084e-3, abs=1e-9)
    assert elongation(750) == pytest.approx(11.0e-3, abs=1e-12)
    assert elongation(860) == pytest.approx(11.0e-3, abs=1e-12)
    assert elongation(math.nextafter(860, 900)) == pytest.approx(11.0e-3, abs=1e-9)


def test_at_a_welding_heat_steel_is_as_long_as_the_lattice_of_austenite_is_wide() -> None:
    # N. Onink and others, Scripta Metallurgica 29 (1993), 1011: austenite 3.6306·(1 + 24.9e-6·(T - 1000)) Å
    # with T in K; ferrite is 2.8664 Å at 20 °C, two atoms to a cell of ferrite and four of austenite (all
    # from memory).
    for temperature_c in (1204, 1300, 1390):
        austenite = 3.6306 * (1 + 24.9e-6 * (temperature_c + 273.15 - 1000))
        longer = ((austenite**3 / 4) / (2.8664**3 / 2)) ** (1 / 3) - 1
        assert elongation(temperature_c) == pytest.approx(longer, rel=0.05)


def test_a_cold_shop_counts_as_twenty_degrees() -> None:
    assert elongation(-20) == elongation(0) == elongation(19.9) == 0.0
    assert elongation_slope(0) == 0.0


@pytest.mark.parametrize("temperature_c", [-20.1, -300, 1394.1, 5000, math.inf, -math.inf, math.nan])
def test_a_temperature_outside_the_standard_is_refused_in_one_sentence(temperature_c: float) -> None:
    with pytest.raises(OutOfRange) as refused:
        elongation(temperature_c)
    sentence = str(refused.value)
    assert "1394 °C" in sentence
    assert sentence.endswith(".")
    assert "\n" not in sentence
    for ask in (elongation_slope, lambda t: cold_size_mm(100, t), lambda t: hot_size_mm(100, t)):
        with pytest.raises(OutOfRange):
            ask(temperature_c)


@pytest.mark.parametrize("temperature_c", [50, 300, 650, 740, 800, 900, 1100, 1190])
def test_the_slope_is_the_derivative_of_the_elongation(temperature_c: float) -> None:
    # Central difference; exact for the quadratic and the straight branches but for rounding.
    difference = (elongation(temperature_c + 1) - elongation(temperature_c - 1)) / 2
    assert elongation_slope(temperature_c) == pytest.approx(difference, abs=1e-12)


def test_the_slope_is_nothing_on_the_plateau() -> None:
    assert elongation_slope(750) == elongation_slope(800) == elongation_slope(860) == 0.0


@pytest.mark.parametrize(
    ("hot_mm", "temperature_c", "cold_mm"),
    [
        # 200 / (1 + the standard's elongation), worked apart from the program.
        (200, 1000, 197.2776),
        (200, 800, 197.8239),
        (200, 1200, 196.5023),
        (100, 1100, 98.4446),
    ],
)
def test_a_hot_reading_becomes_its_cold_size(hot_mm: float, temperature_c: float, cold_mm: float) -> None:
    assert cold_size_mm(hot_mm, temperature_c) == pytest.approx(cold_mm, abs=1e-4)


def test_a_gauge_for_hot_work_is_set_larger() -> None:
    # 200 mm times 1.0138, EN 1993-1-2 §3.4.1.1 at 1000 °C.
    assert hot_size_mm(200, 1000) == pytest.approx(202.76, abs=1e-9)


def test_the_die_sinkers_shrink_rule_agrees_at_a_finishing_heat() -> None:
    # 3/16 inch in the foot, the die-sinkers' shrink rule; from memory. It stands for about 1100 °C.
    assert elongation(1100) == pytest.approx(3 / 16 / 12, rel=0.02)


@given(sizes_mm, hot_c)
def test_the_cold_size_is_smaller_than_the_hot(hot_mm: float, temperature_c: float) -> None:
    assert cold_size_mm(hot_mm, temperature_c) < hot_mm


@given(sizes_mm, hot_c)
def test_hot_and_cold_sizes_undo_each_other(size_mm: float, temperature_c: float) -> None:
    there_and_back = hot_size_mm(cold_size_mm(size_mm, temperature_c), temperature_c)
    assert there_and_back == pytest.approx(size_mm, rel=1e-12)


@given(hot_c, hot_c)
def test_hotter_is_never_shorter_but_for_the_step_of_the_standard(one_c: float, other_c: float) -> None:
    cooler, hotter = sorted((one_c, other_c))
    # The step at 750 °C is 8.4e-6 in the published clause.
    assert elongation(hotter) >= elongation(cooler) - 8.5e-6
