"""Tests of the thermal properties of carbon steel."""

from __future__ import annotations

import math
from collections.abc import Callable
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad

from coach.metals.thermal import (
    STEEL,
    conductivity_w_m_k,
    enthalpy_j_kg,
    specific_heat_j_kg_k,
)
from coach.quantities.refusal import OutOfRange

# EN 1993-1-2:2005 §3.4.1, seen in a secondary reprint; each value worked by hand from the printed clause.
EN_SPECIFIC_HEAT = {
    20: 439.80,
    100: 487.62,
    200: 529.76,
    400: 605.88,
    600: 760.22,
    700: 1008.16,
    735: 5000.0,
    750: 1482.9,
    800: 803.26,
    860: 683.14,
    900: 650,
    1000: 650,
    1100: 650,
    1200: 650,
}
EN_CONDUCTIVITY = {
    20: 53.334,
    100: 50.67,
    200: 47.34,
    400: 40.68,
    600: 34.02,
    700: 30.69,
    735: 29.525,
    750: 29.025,
    800: 27.3,
    860: 27.3,
    900: 27.3,
    1000: 27.3,
    1100: 27.3,
    1200: 27.3,
}
# The integral of the standard's specific heat from 20 °C, by quadrature apart from the program.
EN_ENTHALPY = {
    20: 0.0,
    600: 335_737.8,
    735: 475_427.8,
    800: 561_600.8,
    900: 632_063.8,
    1000: 697_063.8,
    1200: 827_063.8,
}

hot_c = st.floats(min_value=20, max_value=1394)


@pytest.mark.parametrize(("temperature_c", "expected"), EN_SPECIFIC_HEAT.items())
def test_the_specific_heat_is_that_of_the_european_standard(temperature_c: float, expected: float) -> None:
    assert specific_heat_j_kg_k(temperature_c) == pytest.approx(expected, abs=0.05)


@pytest.mark.parametrize(
    ("temperature_c", "expected"), [(20, 439.8018), (400, 605.880), (700, 1008.158), (800, 803.261)]
)
def test_the_specific_heat_holds_to_the_last_published_digit(temperature_c: float, expected: float) -> None:
    # EN 1993-1-2 §3.4.1.2, worked by hand.
    assert specific_heat_j_kg_k(temperature_c) == pytest.approx(expected, abs=1e-3)


def test_the_specific_heat_has_the_steps_that_are_published() -> None:
    # EN 1993-1-2 §3.4.1.2: 759.92 just below 600 °C and 760.22 there, 650.44 just below 900 °C and 650 there.
    assert specific_heat_j_kg_k(math.nextafter(600, 0)) == pytest.approx(759.92, abs=0.005)
    assert specific_heat_j_kg_k(600) == pytest.approx(760.22, abs=0.005)
    assert specific_heat_j_kg_k(math.nextafter(900, 0)) == pytest.approx(650.44, abs=0.005)
    assert specific_heat_j_kg_k(900) == 650


@pytest.mark.parametrize(("temperature_c", "expected"), EN_CONDUCTIVITY.items())
def test_the_conductivity_is_that_of_the_european_standard(temperature_c: float, expected: float) -> None:
    assert conductivity_w_m_k(temperature_c) == pytest.approx(expected, abs=6e-4)


def test_the_conductivity_is_not_that_of_the_misprint() -> None:
    # One reprint has 3.3e-2 for 3.33e-2 and would come to 27.6 just below 800 °C; the clause comes to 27.36.
    assert conductivity_w_m_k(799.999) == pytest.approx(27.36, abs=0.005)


@pytest.mark.parametrize(("temperature_c", "expected"), EN_ENTHALPY.items())
def test_the_heat_held_is_the_integral_of_the_standard(temperature_c: float, expected: float) -> None:
    assert enthalpy_j_kg(temperature_c) == pytest.approx(expected, abs=0.06)


@given(hot_c, hot_c)
def test_the_heat_between_two_temperatures_is_the_area_under_the_specific_heat(
    one: float, two: float
) -> None:
    low, high = sorted((one, two))
    joins = [low, *(t for t in (600, 700, 735, 780, 900, 1200) if low < t < high), high]
    area = sum(quad(specific_heat_j_kg_k, start, end, epsabs=1e-6)[0] for start, end in pairwise(joins))
    # A single point of a step may count for either side; no more than that is forgiven.
    assert enthalpy_j_kg(high) - enthalpy_j_kg(low) == pytest.approx(area, rel=1e-8, abs=1e-3)


def test_austenite_takes_over_where_the_standard_ends() -> None:
    # 652 J/kgK from SGTE's Gibbs energy of fcc iron, Dinsdale 1991 (from memory), beside the standard's 650.
    assert specific_heat_j_kg_k(math.nextafter(1200, 1394)) == pytest.approx(652, abs=0.5)
    assert specific_heat_j_kg_k(1200) == 650


@pytest.mark.parametrize("temperature_c", [1200.001, 1250, 1300, 1390])
def test_the_specific_heat_of_austenite_is_the_bend_of_its_gibbs_energy(temperature_c: float) -> None:
    def gibbs_j_mol(t: float) -> float:
        # Dinsdale, CALPHAD 15 (1991) 317, fcc iron (from memory).
        return (
            -236.7
            + 132.416 * t
            - 24.6643 * t * math.log(t)
            - 0.00375752 * t**2
            - 5.8927e-8 * t**3
            + 77359 / t
        )

    t, step = temperature_c + 273.15, 5.0
    bend = (gibbs_j_mol(t + step) - 2 * gibbs_j_mol(t) + gibbs_j_mol(t - step)) / step**2
    assert specific_heat_j_kg_k(temperature_c) == pytest.approx(-t * bend / 0.055845, rel=1e-5)


@pytest.mark.parametrize("temperature_c", [19.9, -20, -300, 1394.1, 5000, math.inf, -math.inf, math.nan])
@pytest.mark.parametrize("ask", [specific_heat_j_kg_k, enthalpy_j_kg])
def test_heat_outside_both_sources_is_refused_in_one_sentence(
    ask: Callable[[float], float], temperature_c: float
) -> None:
    with pytest.raises(OutOfRange) as refused:
        ask(temperature_c)
    sentence = str(refused.value)
    assert "1394 °C" in sentence
    assert sentence.endswith(".")
    assert "\n" not in sentence


@pytest.mark.parametrize("temperature_c", [19.9, 1200.1, 1300, math.inf, math.nan])
def test_no_conductivity_is_made_up_beyond_the_standard(temperature_c: float) -> None:
    with pytest.raises(OutOfRange, match=r"from 20 to 1200 °C"):
        conductivity_w_m_k(temperature_c)


def test_a_metal_of_another_density_keeps_the_published_heat() -> None:
    iron = STEEL._replace(density_kg_m3=7700)
    assert iron.density_kg_m3 == 7700
    assert iron.specific_heat_j_kg_k(700) == STEEL.specific_heat_j_kg_k(700)
    assert iron.enthalpy_j_kg(700) == STEEL.enthalpy_j_kg(700)


def test_the_doubt_of_the_conductivity_covers_wrought_iron_and_high_carbon_steel() -> None:
    # Near 20 °C wrought iron has about 59 W/mK and steel of 1 % carbon about 45 (from memory).
    for other in (59, 45.5):
        assert abs(other / conductivity_w_m_k(20) - 1) <= 0.15
