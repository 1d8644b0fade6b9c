"""Tests of how fast carbon moves through austenite."""

from __future__ import annotations

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from coach.metals.skin import agren_m2_s
from coach.quantities.refusal import OutOfRange

temperatures_c = st.floats(min_value=727, max_value=1394)


def tibbetts_m2_s(temperature_c: float, carbon_share: float) -> float:
    """A second published law, for a reference.

    D = 0.47 exp(-1.6 C) exp[-(37000 - 6600 C) / (1.987 T)] in cm²/s.
    Source: G. G. Tibbetts, Journal of Applied Physics 51 (1980), 4813 (from memory).
    """
    energy = 37000.0 - 6600.0 * carbon_share
    return 0.47e-4 * math.exp(-1.6 * carbon_share) * math.exp(-energy / (1.987 * (temperature_c + 273.15)))


@pytest.mark.parametrize(
    ("temperature_c", "carbon_share", "expected"),
    # Worked apart from the program from the published law (from memory), to three figures.
    [(1000, 0.4, 3.01e-11), (1000, 0.8, 4.40e-11), (1100, 0.8, 1.13e-10)],
)
def test_the_law_gives_its_worked_values(temperature_c: float, carbon_share: float, expected: float) -> None:
    assert agren_m2_s(temperature_c, carbon_share) == pytest.approx(expected, rel=4e-3)


@given(st.floats(min_value=900, max_value=1200), st.floats(min_value=0, max_value=0.9))
def test_two_laws_agree_about_tool_steel_at_forging_heat(temperature_c: float, carbon_share: float) -> None:
    assert tibbetts_m2_s(temperature_c, carbon_share) == pytest.approx(
        agren_m2_s(temperature_c, carbon_share), rel=0.13
    )


@given(temperatures_c, temperatures_c, st.floats(min_value=0, max_value=2.14))
def test_carbon_moves_faster_where_it_is_hotter(one_c: float, other_c: float, carbon_share: float) -> None:
    colder_c, hotter_c = sorted((one_c, other_c))
    assume(colder_c + 1e-9 < hotter_c)  # nearer than that, a rounding of the last figure decides
    assert agren_m2_s(colder_c, carbon_share) <= agren_m2_s(hotter_c, carbon_share)


@given(temperatures_c, st.floats(min_value=0, max_value=2.13))
def test_carbon_moves_faster_where_there_is_more_of_it(temperature_c: float, carbon_share: float) -> None:
    assert agren_m2_s(temperature_c, carbon_share) < agren_m2_s(temperature_c, carbon_share + 0.01)


@pytest.mark.parametrize("temperature_c", [20, 726.9, 1394.1, -300, math.inf, -math.inf, math.nan])
def test_a_heat_without_austenite_is_refused_in_one_sentence(temperature_c: float) -> None:
    with pytest.raises(OutOfRange, match="727 to 1394 °C") as refused:
        agren_m2_s(temperature_c, 0.8)
    assert str(refused.value).endswith(".")
    assert "\n" not in str(refused.value)


@pytest.mark.parametrize("carbon_share", [-0.01, 2.15, 84, math.inf, math.nan])
def test_more_carbon_than_austenite_holds_is_refused(carbon_share: float) -> None:
    with pytest.raises(OutOfRange, match="give it in per cent"):
        agren_m2_s(1000, carbon_share)
