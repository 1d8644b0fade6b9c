"""Tests of how many blows and heats a forging takes."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coach.fire.blows import (
    COUNT_DOUBT_SHARE,
    GREATEST_STRAIN,
    HAND_HAMMER,
    SLEDGE,
    Striker,
    blow_j,
    blows_for,
    forging_work_j,
    heats_for,
    misaka_mean_stress_mpa,
    power_hammer,
    reckon,
    stiffness,
)
from coach.metals.grade import grade
from coach.quantities.refusal import OutOfRange

WORK_J = 530.4  # 25×25×30 mm of 0.2 % carbon steel at 1100 °C, 25 to 20 mm; worked apart from the program

every_striker = st.sampled_from([HAND_HAMMER, SLEDGE, *map(power_hammer, (10, 25, 50, 100, 250))])
works_j = st.floats(min_value=0, max_value=1e7, allow_subnormal=False)

MILD = replace(grade("mild steel"), carbon_share=0.2)


@pytest.mark.parametrize(
    ("striker", "energy_j", "useful_share", "blows"),
    [
        # Central impact with e = 0.3 (from memory), speeds judgement; worked apart from the program.
        (HAND_HAMMER, 48.0, 0.8966, 12.33),
        (SLEDGE, 144.0, 0.8835, 4.17),
        (power_hammer(25), 312.5, 0.8531, 1.99),
        (power_hammer(50), 625.0, 0.8531, 0.995),
    ],
    ids=lambda one: one.name if isinstance(one, Striker) else None,
)
def test_each_way_to_strike_takes_its_number_of_blows(
    striker: Striker, energy_j: float, useful_share: float, blows: float
) -> None:
    assert 0.5 * striker.mass_kg * striker.speed_m_s**2 == pytest.approx(energy_j)
    assert blow_j(striker) == pytest.approx(energy_j * useful_share, rel=1e-4)
    assert WORK_J / blow_j(striker) == pytest.approx(blows, abs=5.1e-3)
    assert blows_for(WORK_J, striker) == math.ceil(blows)


def test_the_work_of_a_squeeze_is_stress_times_volume_times_strain() -> None:
    # σ 126.78 MPa, ε 0.22314: 530.4 J; worked apart from the program.
    stress_mpa = misaka_mean_stress_mpa(0.2, 1100, math.log(1.25), 100)
    assert stress_mpa == pytest.approx(126.78, abs=0.005)
    assert forging_work_j(MILD, 1100, 25 * 25 * 30, 25, 20) == pytest.approx(WORK_J, abs=0.05)
    assert forging_work_j(MILD, 1100, 25 * 25 * 30, 25, 25) == 0.0


def test_a_large_squeeze_is_made_in_smaller_ones() -> None:
    # Three squeezes by 1.3 need three times the work of one, on the same volume.
    one_j = forging_work_j(MILD, 1100, 10_000, 25, 25 / 1.3)
    assert forging_work_j(MILD, 1100, 10_000, 25, 25 / 1.3**3) == pytest.approx(3 * one_j, rel=1e-9)


def test_a_hand_hammer_needs_several_heats_where_a_power_hammer_needs_one() -> None:
    by_hand, by_power = reckon(20_000, HAND_HAMMER, 60), reckon(20_000, power_hammer(50), 60)
    assert by_hand.heats > by_power.heats >= 1
    assert COUNT_DOUBT_SHARE == 0.5  # judgement


def test_heats_are_blows_over_what_a_heat_has_time_for() -> None:
    # 60 s, 60 blows a minute, striking half of the time: 30 blows a heat.
    striker = HAND_HAMMER._replace(blows_per_minute=60.0, striking_share=0.5)
    assert [heats_for(blows, 60, striker) for blows in (0, 1, 30, 31, 90)] == [0, 1, 1, 2, 3]


def test_no_work_takes_no_blow() -> None:
    assert reckon(0, HAND_HAMMER, 60)[:2] == (0, 0)


def test_a_count_that_is_whole_takes_no_extra_blow() -> None:
    assert blows_for(7 * blow_j(HAND_HAMMER), HAND_HAMMER) == 7


def test_wrought_iron_is_reckoned_as_soft_steel_and_says_so() -> None:
    iron = stiffness(grade("wrought iron"), 1100)
    assert iron.mean_stress_mpa == pytest.approx(misaka_mean_stress_mpa(0.05, 1100, GREATEST_STRAIN, 100))
    assert "No law covers wrought iron" in iron.remark
    assert "0.05 %" in iron.remark
    assert stiffness(grade("mild steel"), 1100).remark == ""


def test_a_welding_heat_counts_as_the_hottest_the_law_covers() -> None:
    assert stiffness(MILD, 1300) == stiffness(MILD, 1200)
    with pytest.raises(OutOfRange):
        stiffness(MILD, 700)
    for wrong in (math.nan, math.inf):
        with pytest.raises(OutOfRange):
            stiffness(MILD, wrong)


def test_steel_of_unknown_carbon_is_not_reckoned() -> None:
    with pytest.raises(OutOfRange) as refused:
        forging_work_j(grade("unknown spring steel"), 1000, 10_000, 25, 20)
    assert "carbon of unknown spring steel is not known" in str(refused.value)
    assert "count the blows" in str(refused.value)


@pytest.mark.parametrize("ram_kg", [0, 9, 251, -5, math.nan, math.inf])
def test_a_ram_nobody_has_is_refused(ram_kg: float) -> None:
    with pytest.raises(OutOfRange, match="10 to 250 kg"):
        power_hammer(ram_kg)


def test_heavier_rams_strike_more_slowly_and_harder() -> None:
    rams = [power_hammer(kg) for kg in (10, 25, 40, 50, 100, 250)]
    rates = [ram.blows_per_minute for ram in rams]
    assert rates == sorted(rates, reverse=True)
    assert [blow_j(ram) for ram in rams] == sorted(blow_j(ram) for ram in rams)


@pytest.mark.parametrize("wrong", [0.0, -1.0, math.nan, math.inf])
def test_what_makes_no_sense_is_refused_in_one_sentence(wrong: float) -> None:
    for ask in (
        lambda: forging_work_j(MILD, 1000, wrong, 25, 20),
        lambda: forging_work_j(MILD, 1000, 1000, wrong, 20),
        lambda: forging_work_j(MILD, 1000, 1000, 25, wrong),
        lambda: blow_j(HAND_HAMMER._replace(mass_kg=wrong)),
        lambda: blow_j(HAND_HAMMER._replace(anvil_kg=wrong)),
        lambda: blow_j(HAND_HAMMER._replace(speed_m_s=wrong)),
        lambda: heats_for(10, wrong, HAND_HAMMER),
        lambda: heats_for(10, 60, HAND_HAMMER._replace(blows_per_minute=wrong)),
        lambda: heats_for(10, 60, HAND_HAMMER._replace(striking_share=wrong)),
    ):
        with pytest.raises(OutOfRange) as refused:
            ask()
        assert str(refused.value).endswith(".")
        assert "\n" not in str(refused.value)


def test_other_refusals_say_what_is_wrong() -> None:
    with pytest.raises(OutOfRange, match="higher"):
        forging_work_j(MILD, 1000, 1000, 20, 25)
    with pytest.raises(OutOfRange, match="no time for a blow"):
        heats_for(10, 0.5, HAND_HAMMER)
    with pytest.raises(OutOfRange, match="0 or more"):
        heats_for(-1, 60, HAND_HAMMER)
    for wrong in (-1.0, math.nan, math.inf):
        with pytest.raises(OutOfRange, match="0 or more"):
            blows_for(wrong, HAND_HAMMER)


@given(works_j, works_j, every_striker)
def test_more_work_never_takes_fewer_blows_or_heats(one_j: float, other_j: float, striker: Striker) -> None:
    less, more = (reckon(work, striker, 45) for work in sorted((one_j, other_j)))
    assert less.blows <= more.blows
    assert less.heats <= more.heats


@given(works_j, every_striker)
def test_the_blows_suffice_and_none_is_idle(work: float, striker: Striker) -> None:
    blows = blows_for(work, striker)
    assert blows * blow_j(striker) >= work * (1 - 1e-8)
    assert (blows - 1) * blow_j(striker) < work or blows == 0


@given(
    st.floats(min_value=5, max_value=100),
    st.floats(min_value=1.0, max_value=5.0),
    st.floats(min_value=1.0, max_value=5.0),
)
def test_forging_further_never_takes_less_work(height_mm: float, one: float, other: float) -> None:
    less, more = sorted((one, other))
    nearer_j = forging_work_j(MILD, 1000, 10_000, height_mm, height_mm / less)
    further_j = forging_work_j(MILD, 1000, 10_000, height_mm, height_mm / more)
    assert nearer_j <= further_j * (1 + 1e-9)
