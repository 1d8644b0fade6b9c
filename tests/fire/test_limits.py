"""Tests of the heats between which iron and steel are worked."""

from __future__ import annotations

from dataclasses import replace
from math import inf

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coach.fire.limits import (
    HANDBOOK_HIGHEST_C,
    burning_limit,
    common_range,
    too_cold,
    worked_at,
)
from coach.metals.grade import grade, grades
from coach.metals.grade_file import MARKS, Grade
from coach.metals.transformation import solidus_c
from coach.quantities import celsius
from coach.telling.words import write
from coach.telling.writing import Shown

IRON, MILD, C80, UNKNOWN = (grade(n) for n in ("wrought iron", "mild steel", "C80", "unknown spring steel"))
ALL = grades()

some_grades = st.lists(st.sampled_from(ALL), min_size=1, max_size=4)


def by_name(one: Grade) -> str:
    return one.name


def burning_c(one: Grade) -> float:
    limit = burning_limit(one).temperature
    assert limit is not None
    return limit.value


# ── one grade ────────────────────────────────────────────────────────────────────────────────────


@pytest.mark.parametrize("one", ALL, ids=by_name)
def test_every_limit_says_where_it_comes_from(one: Grade) -> None:
    for limit in (*worked_at(one), *worked_at(one, welding=True), burning_limit(one)):
        if limit.temperature is None:
            assert limit.source.endswith(".")
        else:
            assert limit.source.endswith(tuple(f"({mark})" for mark in MARKS))


@pytest.mark.parametrize(("carbon_share", "highest_c"), HANDBOOK_HIGHEST_C)
def test_steel_is_feared_to_burn_a_little_above_what_handbooks_allow(
    carbon_share: float, highest_c: float
) -> None:
    # Forging handbooks of about 1939 (from memory); 50 °C above them is judgement. More carbon melts sooner
    # (the iron-carbon diagram), so that 0.80 % is held to the 1180 °C of 0.60 %, and not to its own 1205.
    # At 0.95 % another table of a handbook, of where steel burns, is lower: 1221 °C at 0.9 %, 1171 at 1.1.
    highest_c = min(highest_c, *(heat_c for carbon, heat_c in HANDBOOK_HIGHEST_C if carbon <= carbon_share))
    burns_c = 1221.0 - 50.0 * (carbon_share - 0.9) / 0.2 if carbon_share > 0.9 else inf
    plain = replace(MILD, carbon_share=carbon_share, forging_high_c=None, welding_high_c=None)
    assert burning_c(plain) == pytest.approx(min(highest_c + 50, burns_c), abs=0.1)


def test_more_carbon_burns_no_hotter() -> None:
    # The solidus falls with carbon, from 1493 °C at 0.17 % to 1147 at 2.1 (iron-carbon diagram, from memory).
    plain = replace(MILD, forging_high_c=None, welding_high_c=None)
    heats_c = [burning_c(replace(plain, carbon_share=share / 100)) for share in range(5, 200)]
    assert heats_c == sorted(heats_c, reverse=True)


def test_the_handbook_is_read_between_its_rows() -> None:
    plain = replace(MILD, carbon_share=0.25, forging_high_c=None, welding_high_c=None)
    # Half-way between 0.10 %, 1315 °C, and 0.40 %, 1260 °C (from memory).
    assert burning_c(plain) == pytest.approx((1315 + 1260) / 2 + 50, abs=0.05)


@pytest.mark.parametrize("one", ALL, ids=by_name)
def test_no_grade_is_said_to_burn_at_a_heat_it_is_worked_at(one: Grade) -> None:
    if one.carbon_share is None:
        assert burning_limit(one).temperature is None
        return
    for heat_c in (one.forging_high_c, one.welding_high_c):
        assert heat_c is None or heat_c <= burning_c(one)


@given(st.floats(min_value=0.0, max_value=2.14))
def test_nothing_may_come_near_its_melting(carbon_share: float) -> None:
    # 100 °C below the solidus is judgement; commercial steel burns 80 to 150 °C below it (from memory).
    assert burning_c(replace(IRON, carbon_share=carbon_share)) <= solidus_c(carbon_share) - 100 + 0.05


def test_steel_of_unknown_carbon_says_why_its_burning_is_unknown() -> None:
    assert "only an analysis tells" in burning_limit(UNKNOWN).source


def test_wrought_iron_stops_before_its_fibres_split() -> None:
    cold = too_cold(IRON)
    # Fibres split below about 850 °C (from memory).
    assert (cold.back_below, cold.stop_below) == (celsius(900), celsius(850))
    assert "fibres of wrought iron split" in str(cold.sentence)
    assert "red-short" in str(cold.sentence)


@pytest.mark.parametrize("one", [one for one in ALL if one.name != IRON.name], ids=by_name)
def test_steel_goes_back_to_the_fire_at_its_lowest_forging_heat(one: Grade) -> None:
    cold = too_cold(one)
    assert cold.back_below == (None if one.forging_low_c is None else celsius(one.forging_low_c))
    assert cold.source.endswith("(from memory)")
    assert cold.stop_below == celsius(725)  # about Ac1 (from memory)
    assert "fibres" not in str(cold.sentence)
    assert str(cold.sentence).count(".") == 1


def test_of_a_grade_without_a_lowest_heat_nobody_knows_where_it_stops() -> None:
    # Hot-work and stainless steels are worked down to 870 °C and more (from memory): 725 °C would be a guess.
    bare = replace(
        MILD, name="H1", carbon_share=0.4, forging_low_c=None, unknown={"forging_low_c": "Never tried."}
    )
    cold = too_cold(bare)
    assert (cold.back_below, cold.stop_below, cold.source) == (None, None, "Never tried.")
    assert str(cold.sentence) == ("How cold H1 may be struck is not known: try it on a piece of scrap first.")
    assert worked_at(bare)[0] == (None, "Never tried.")


def test_mild_steel_only_stiffens_where_harder_steel_cracks() -> None:
    # Mild steel is worked cold, and is short at a blue heat, 200 to 350 °C (from memory).
    told = str(too_cold(MILD).sentence)
    assert told == (
        "Back to the fire below 840 °C, and no heavy blow below 725 °C: mild steel only stiffens there, "
        "and at a blue heat, 200 °C to 350 °C, it can crack."
    )
    assert all(
        "cracks" in str(too_cold(one).sentence) for one in ALL if one.carbon_share and one.carbon_share > 0.3
    )


@pytest.mark.parametrize("one", [one for one in ALL if one.carbon_share is not None], ids=by_name)
def test_a_welding_heat_keeps_its_distance_from_burning(one: Grade) -> None:
    # No closer than two heats can be told apart: a reading is good to 15 °C (common practice, no source).
    if one.welding_high_c is not None:
        assert burning_c(one) - one.welding_high_c >= 30.0


def test_a_grade_worked_colder_than_others_is_not_stopped_before_its_own_limit() -> None:
    cold = too_cold(replace(MILD, forging_low_c=650.0))
    assert cold.back_below == cold.stop_below == celsius(650)


# ── several in one piece ─────────────────────────────────────────────────────────────────────────


def test_iron_and_steel_are_forged_where_both_stand_it() -> None:
    found = common_range([IRON, C80])
    assert (found.low, found.high) == (celsius(900), celsius(1100))
    assert (found.low_set_by, found.high_set_by) == ("wrought iron", "C80")
    assert (
        str(found.sentence)
        == "Forge from 900 °C to 1100 °C: wrought iron must not get colder, C80 not hotter."
    )


def test_iron_and_high_carbon_steel_are_welded_at_the_ceiling_of_the_steel() -> None:
    found = common_range([C80, IRON], welding=True)
    assert (found.low, found.high, found.ceiling) == (None, None, celsius(1150))
    assert str(found.sentence) == (
        "No welding heat suits them all: wrought iron needs 1300 °C, C80 stands no more than 1150 °C; weld "
        "with borax at 1150 °C, with the heat on the wrought iron and the C80 kept back from it."
    )


def test_iron_and_mild_steel_share_a_welding_heat() -> None:
    found = common_range([IRON, MILD], welding=True)
    assert (found.low, found.high) == (celsius(1300), celsius(1320))


def test_a_grade_that_sets_both_limits_is_named_once() -> None:
    narrow = replace(MILD, name="narrow", forging_low_c=950.0, forging_high_c=1000.0)
    assert (
        str(common_range([IRON, narrow]).sentence) == "Forge from 950 °C to 1000 °C: narrow sets both limits."
    )


def test_one_grade_alone_has_its_own_range() -> None:
    assert str(common_range([IRON, IRON]).sentence) == "Forge from 900 °C to 1350 °C."


def test_grades_that_share_no_forging_heat_are_forged_apart() -> None:
    low = replace(MILD, name="soft", forging_low_c=600.0, forging_high_c=700.0)
    found = common_range([IRON, low])
    assert (found.low, found.high) == (None, None)
    assert "forge them before they are joined" in str(found.sentence)


def test_a_window_that_no_fire_can_be_held_in_is_told_to_be_one() -> None:
    # Mild steel is welded from 1250 °C, C45 up to 1260 (from memory); a colour is good to 40 °C at best
    # (judgement).
    told = write(common_range([grade("mild steel"), grade("C45")], welding=True).sentence)
    assert told.startswith("Weld from 1250 °C to 1260 °C")
    assert told.endswith("take the heat on the mild steel, keep the C45 back from it.")
    iron = write(common_range([grade("wrought iron"), grade("mild steel")], welding=True).sentence)
    assert ("held so closely" in iron) == ("1300 °C to 1320 °C" in iron)


def test_a_grade_nobody_has_welded_stands_in_the_way() -> None:
    found = common_range([IRON, grade("5160")], welding=True)
    assert (found.low, found.high, found.ceiling) == (None, None, None)
    assert str(found.sentence) == (
        "No welding heat is known for 5160, so none can be given; weld and bend a coupon first."
    )


def test_temperatures_are_told_as_the_smith_reads_them() -> None:
    assert "1652 °F to 2012 °F" in write(common_range([IRON, C80]).sentence, Shown("in"))
    assert "1562 °F" in write(too_cold(IRON).sentence, Shown("in"))


def test_no_grade_at_all_is_refused() -> None:
    with pytest.raises(ValueError, match="empty"):
        common_range([])


@given(some_grades, st.booleans())
def test_the_common_range_lies_within_the_range_of_each(together: list[Grade], welding: bool) -> None:
    found = common_range(together, welding=welding)
    assert str(found.sentence).endswith(".")
    assert "\n" not in str(found.sentence)
    if found.low is None or found.high is None:
        assert found.low is found.high is None
        return
    assert found.low.value <= found.high.value
    for one in together:
        low, high = worked_at(one, welding=welding)
        assert low.temperature is not None
        assert high.temperature is not None
        assert low.temperature.value <= found.low.value
        assert found.high.value <= high.temperature.value


@given(some_grades, st.sampled_from(ALL))
def test_another_alloy_in_the_piece_never_widens_the_range(together: list[Grade], more: Grade) -> None:
    alone, joined = common_range(together), common_range([*together, more])
    if joined.low is not None and joined.high is not None:
        assert alone.low is not None
        assert alone.high is not None
        assert alone.low.value <= joined.low.value
        assert joined.high.value <= alone.high.value


# The heats at which plain steel burns, a forging handbook of 1939 (from memory): 2230 °F at 0.9 % carbon,
# 2140 at 1.1 %. W1 has 1.05 %, O1 and 1095 0.95 %.
@pytest.mark.parametrize(("name", "burns_c"), [("W1", 1183.0), ("O1", 1208.0), ("1095", 1208.0)])
def test_no_tool_steel_is_taken_to_burn_later_than_a_handbook_has_it(name: str, burns_c: float) -> None:
    limit = burning_limit(grade(name))
    assert limit.temperature is not None
    assert limit.temperature.value <= burns_c + 1.0
    assert "burns" in limit.source
