"""Tests of the heating time: how long a piece lies in the fire until its middle is hot."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from coach.fire.cooling import FORGE_FIRE, CoolingSection, heat_loss_w_m2, soaking_minutes
from coach.metals.thermal import STEEL, specific_heat_j_kg_k
from coach.quantities.refusal import OutOfRange
from tests.fire.another_solver import Reference
from tests.metals.ideal import constant

# Conducting without limit, so that a bar of any size counts as thin.
HANDBOOK = constant(680)


def bar(size_mm: float) -> CoolingSection:
    """A long round bar by its diameter, or a square one by its side."""
    return CoolingSection(size_mm / 4, size_mm / 2)


@pytest.mark.parametrize(
    ("size_mm", "fire_c", "margin_c", "minutes"),
    [
        # The lumped balance from 20 °C with 680 J/kgK, ε 0.8 and h 30, solved apart from the program.
        (10, 1250, 100, 1.32),
        (20, 1250, 100, 2.63),
        (25.4, 1250, 100, 3.34),
        (50, 1250, 100, 6.58),
        (25.4, 1350, 150, 2.56),
    ],
)
def test_a_bar_of_constant_heat_soaks_in_the_time_of_the_balance(
    size_mm: float, fire_c: float, margin_c: float, minutes: float
) -> None:
    assert soaking_minutes(bar(size_mm), fire_c, margin_c, metal=HANDBOOK) == pytest.approx(
        minutes, abs=0.005
    )


def test_a_bar_of_one_temperature_follows_the_differential_equation() -> None:
    fire = FORGE_FIRE._replace(air_c=1250)

    def rate(_: float, t: list[float]) -> list[float]:
        return [-heat_loss_w_m2(t[0], fire) / (7850 * specific_heat_j_kg_k(t[0]) * 0.0025)]

    def hot(_: float, t: list[float]) -> float:
        return float(t[0]) - 1150

    hot.terminal = True  # type: ignore[attr-defined]
    solved = solve_ivp(rate, (0, 600), [20.0], rtol=1e-9, atol=1e-7, events=hot)
    even = STEEL._replace(conductivity_w_m_k=lambda _: 1e7)
    found = soaking_minutes(bar(10), 1250, 100, metal=even)
    assert found == pytest.approx(float(solved.t[-1]) / 60, rel=2e-3)


@pytest.mark.parametrize("size_mm", [10, 30, 80])
def test_the_middle_of_a_bar_is_waited_for(size_mm: float) -> None:
    fire = FORGE_FIRE._replace(air_c=1150)
    reference = Reference(size_mm / 2, 2, lambda at_c: heat_loss_w_m2(at_c, fire))
    seconds = reference.seconds(20, 1100, middle=True)
    assert soaking_minutes(bar(size_mm), 1150, 50) == pytest.approx(seconds / 60, rel=0.005)
    assert soaking_minutes(bar(80), 1150, 50) > 1.05 * 8 * soaking_minutes(bar(10), 1150, 50)


@settings(max_examples=25, deadline=None)
@given(
    st.floats(min_value=2, max_value=40),
    st.floats(min_value=1, max_value=3),
    st.floats(min_value=700, max_value=1200),
    st.floats(min_value=10, max_value=200),
)
def test_a_smaller_margin_a_thicker_piece_and_a_colder_start_take_longer(
    half_mm: float, dimensions: float, fire_c: float, margin_c: float
) -> None:
    section = CoolingSection(half_mm / dimensions, half_mm)
    minutes = soaking_minutes(section, fire_c, margin_c)
    assert minutes > 0
    assert soaking_minutes(section, fire_c, margin_c / 1.5) > minutes
    assert (
        soaking_minutes(CoolingSection(half_mm / dimensions * 1.3, half_mm * 1.3), fire_c, margin_c) > minutes
    )
    assert soaking_minutes(section, fire_c, margin_c, from_c=400) < minutes


def test_a_hotter_or_blacker_or_windier_fire_is_quicker() -> None:
    minutes = soaking_minutes(bar(12), 1150, 50)
    assert soaking_minutes(bar(12), 1200, 100) < minutes
    assert soaking_minutes(bar(12), 1150, 50, gases=FORGE_FIRE._replace(emissivity=0.9)) < minutes
    assert soaking_minutes(bar(12), 1150, 50, gases=FORGE_FIRE._replace(convection_w_m2_k=60)) < minutes
    assert soaking_minutes(bar(12), 1150, 50, metal=STEEL._replace(density_kg_m3=7700)) == pytest.approx(
        minutes * 7700 / 7850
    )


def test_a_piece_that_is_hot_already_need_not_wait() -> None:
    assert soaking_minutes(bar(12), 1150, 50, from_c=1100) == 0
    assert soaking_minutes(bar(12), 1150, 50, from_c=1180) == 0


@pytest.mark.parametrize("margin_c", [0, -1, math.nan, math.inf])
def test_no_piece_becomes_as_hot_as_its_fire(margin_c: float) -> None:
    with pytest.raises(OutOfRange, match="above 0") as refused:
        soaking_minutes(bar(12), 1150, margin_c)
    assert str(refused.value).endswith(".")


@pytest.mark.parametrize("fire_c", [math.nan, math.inf, -math.inf, -300])
def test_a_fire_that_cannot_be_is_refused(fire_c: float) -> None:
    with pytest.raises(OutOfRange):
        soaking_minutes(bar(12), fire_c, 50)


@pytest.mark.parametrize(
    ("size_mm", "fire_c", "from_c", "highest"),
    [(8, 1500, 20, "1394"), (40, 1450, 20, "1394"), (8, 1100, 10, "1394"), (8, 1100, math.nan, "1394")],
)
def test_what_is_not_published_is_refused_with_the_range(
    size_mm: float, fire_c: float, from_c: float, highest: str
) -> None:
    with pytest.raises(OutOfRange, match=f"from 20 to {highest} °C"):
        soaking_minutes(bar(size_mm), fire_c, 50, from_c)


def test_an_impossible_section_is_refused() -> None:
    with pytest.raises(OutOfRange, match="more than 0"):
        soaking_minutes(CoolingSection(0, 5), 1150, 50)
