"""Tests of the heat that steel gives back as it cools."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coach.metals.cooling_steel import cooling_steel, turns_from_c
from coach.metals.grade import grade
from coach.metals.thermal import STEEL

CALORIE_J = 4.184


def test_what_turning_gives_back_is_what_was_measured() -> None:
    # Hagel, Pound and Mehl, Acta Metallurgica 4 (1956), 37: 19.6 cal/g at 727 °C for 0.8 % of carbon, ±5 %
    # (confirmed, by its abstract); as pearlite holds more than austenite it is some tenth more at 685 °C.
    given_back = cooling_steel(800).enthalpy_j_kg(685) - STEEL.enthalpy_j_kg(685)
    measured = 19.6 * CALORIE_J * 1000
    assert measured * 0.95 < given_back < measured * 1.1 * 1.05


@pytest.mark.parametrize("temperature_c", [20, 600, 640, 900, 1000, 1200, 1390])
def test_a_whole_cooling_gives_back_what_the_heating_took(temperature_c: float) -> None:
    assert cooling_steel(1300).enthalpy_j_kg(temperature_c) == STEEL.enthalpy_j_kg(temperature_c)


@given(
    st.sampled_from(["1084", "mild steel", "wrought iron", "5160", "O1"]),
    st.floats(min_value=20, max_value=1380),
    st.floats(min_value=0.5, max_value=10),
)
def test_it_holds_less_the_colder_it_is_by_its_specific_heat(
    name: str, temperature_c: float, more_c: float
) -> None:
    steel = cooling_steel(1300, turns_from_c(grade(name)))
    assert steel.enthalpy_j_kg(temperature_c + more_c) > steel.enthalpy_j_kg(temperature_c)


def test_its_specific_heat_is_the_slope_of_what_it_holds() -> None:
    for steel in (cooling_steel(800), cooling_steel(720), cooling_steel(1000, 774.0)):
        for low, high in pairwise((30.0, 200.0, 500.0, 640.0)):
            middle = (low + high) / 2.0
            slope = steel.enthalpy_j_kg(middle + 0.5) - steel.enthalpy_j_kg(middle - 0.5)
            assert slope == pytest.approx(steel.specific_heat_j_kg_k(middle), rel=1e-3)


def test_steel_that_was_not_heated_to_where_it_turns_gives_back_no_heat_of_turning() -> None:
    cold = cooling_steel(720)
    assert cold.enthalpy_j_kg(720) - cold.enthalpy_j_kg(660) < 60 * 1000
    assert cold.specific_heat_j_kg_k(730) < 1000
