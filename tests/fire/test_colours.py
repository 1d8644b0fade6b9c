"""Tests of what the colour of glowing steel says."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coach.fire.colours import COLOUR_DOUBT_C, HEAT_COLOURS, ColourTable, NamedColour
from coach.quantities.refusal import NotKnown

ALL = [(table, colour) for table in HEAT_COLOURS.tables for colour in table.colours]

# White and Taylor, Trans. ASME 21 (1899/1900), p. 627, in °F as published; from memory.
WHITE_AND_TAYLOR_F = {
    "black red": 990,
    "dark blood red": 990,
    "dark red": 1050,
    "blood red": 1050,
    "low red": 1050,
    "dark cherry red": 1175,
    "medium cherry red": 1250,
    "cherry": 1375,
    "full red": 1375,
    "light cherry": 1550,
    "bright cherry": 1550,
    "light red": 1550,
    "scaling heat": 1550,
    "salmon": 1650,
    "orange": 1650,
    "free scaling heat": 1650,
    "light salmon": 1725,
    "light orange": 1725,
    "yellow": 1825,
    "light yellow": 1975,
    "white": 2200,
}


@pytest.mark.parametrize(("name", "fahrenheit"), WHITE_AND_TAYLOR_F.items())
def test_the_default_table_is_that_of_white_and_taylor(name: str, fahrenheit: float) -> None:
    # Kept in whole °C, so half a degree C may be lost.
    assert HEAT_COLOURS.temperature_c(name) == pytest.approx((fahrenheit - 32) * 5 / 9, abs=0.5)


def test_degrees_fahrenheit_round_to_the_published_figures() -> None:
    published = sorted(set(WHITE_AND_TAYLOR_F.values()))
    assert [
        5 * round((one.temperature_c * 1.8 + 32) / 5) for one in HEAT_COLOURS.table().colours
    ] == published


@pytest.mark.parametrize(
    ("table", "name", "fahrenheit"),
    [
        # Dooley, Applied Science for Metal Workers, §458; confirmed.
        ("Dooley", "first red", 957),
        ("Dooley", "dull red", 1290),
        ("Dooley", "dark cherry", 1470),
        ("Dooley", "cherry", 1655),
        ("Dooley", "bright red", 1870),
        ("Dooley", "dull orange", 2010),
        ("Dooley", "bright orange", 2190),
        ("Dooley", "white", 2370),
        ("Dooley", "bright white", 2550),
        ("Dooley", "dazzling white", (2730 + 2910) / 2),
        # Machinery's Handbook, 12th edition, as quoted by others.
        ("Machinery's Handbook", "red visible in the dark", 752),
        ("Machinery's Handbook", "red visible in daylight", 975),
        ("Machinery's Handbook", "red visible in sunlight", 1077),
        ("Machinery's Handbook", "dark red", 1292),
        ("Machinery's Handbook", "dull cherry", 1472),
        ("Machinery's Handbook", "cherry", 1652),
        ("Machinery's Handbook", "bright cherry", 1832),
        ("Machinery's Handbook", "orange-red", 2012),
        ("Machinery's Handbook", "dazzling white", 2912),
        # A Book of Steam for Engineers, 1905, p. 50, °F to the nearest ten, as quoted by others.
        ("Stirling", "red just visible", 977),
        ("Stirling", "dull cherry", 1472),
        ("Stirling", "deep orange", 2012),
        ("Stirling", "dazzling white", 2732),
    ],
)
def test_the_other_tables_are_as_published(table: str, name: str, fahrenheit: float) -> None:
    assert HEAT_COLOURS.temperature_c(name, table) == pytest.approx((fahrenheit - 32) * 5 / 9, abs=0.6)


@pytest.mark.parametrize(("table", "colour"), ALL, ids=lambda one: one.name)
def test_every_colour_reads_back_to_its_temperature(table: ColourTable, colour: NamedColour) -> None:
    for word in (colour.name, *colour.aliases):
        assert HEAT_COLOURS.temperature_c(word, table.name) == colour.temperature_c
    assert HEAT_COLOURS.name_of(colour.temperature_c, table.name) == colour.name


@pytest.mark.parametrize("table", HEAT_COLOURS.tables, ids=lambda table: table.name)
def test_a_table_rises_and_uses_each_word_once(table: ColourTable) -> None:
    assert all(cool.temperature_c < hot.temperature_c for cool, hot in pairwise(table.colours))
    words = [word for colour in table.colours for word in (colour.name, *colour.aliases)]
    assert len(words) == len(set(words))
    assert table.source.endswith(("(confirmed)", "(confirmed second-hand)", "(from memory)"))


def test_case_blanks_and_hyphens_do_not_matter() -> None:
    assert HEAT_COLOURS.temperature_c("  Light-ORANGE ") == HEAT_COLOURS.temperature_c("light orange")
    assert HEAT_COLOURS.temperature_c("cherry", "stirling") == 900


def test_cherry_means_different_heats_in_different_tables() -> None:
    apart_c = HEAT_COLOURS.temperature_c("cherry", "Machinery's Handbook") - HEAT_COLOURS.temperature_c(
        "cherry"
    )
    assert apart_c > 3 * COLOUR_DOUBT_C


@pytest.mark.parametrize("temperature_c", [-50, 20, 400, 531.9, math.nan, -math.inf])
def test_below_the_first_colour_there_is_none_yet(temperature_c: float) -> None:
    assert HEAT_COLOURS.name_of(temperature_c) == "no colour yet"


def test_a_temperature_between_two_colours_takes_the_nearer() -> None:
    assert HEAT_COLOURS.name_of(532) == "dark blood red"
    assert HEAT_COLOURS.name_of(548) == "dark blood red"
    assert HEAT_COLOURS.name_of(549) == "dark blood red"  # half-way between 532 and 566: the cooler
    assert HEAT_COLOURS.name_of(550) == "blood red"
    assert HEAT_COLOURS.name_of(745) == "cherry"
    assert HEAT_COLOURS.name_of(1400) == "white"


@given(st.floats(min_value=-50, max_value=1600), st.floats(min_value=-50, max_value=1600))
def test_hotter_steel_never_has_a_cooler_colour(one_c: float, other_c: float) -> None:
    order = ["no colour yet", *(colour.name for colour in HEAT_COLOURS.table().colours)]
    cooler, hotter = sorted((one_c, other_c))
    assert order.index(HEAT_COLOURS.name_of(cooler)) <= order.index(HEAT_COLOURS.name_of(hotter))


def test_a_misspelt_colour_is_answered_with_the_nearest() -> None:
    with pytest.raises(NotKnown, match=r"^There is no heat colour “yelow”; the nearest is yellow\.$"):
        HEAT_COLOURS.temperature_c("yelow")


@pytest.mark.parametrize("name", ["", "   ", "mauve", "x" * 10_000, "\n\n", "[/] [b", "赤"])
def test_a_strange_colour_is_answered_in_one_short_sentence(name: str) -> None:
    with pytest.raises(NotKnown) as refused:
        HEAT_COLOURS.temperature_c(name)
    sentence = str(refused.value)
    assert sentence.endswith(".")
    assert "\n" not in sentence
    assert len(sentence) < 300


def test_an_unknown_table_is_answered_with_the_tables_there_are() -> None:
    for ask in (HEAT_COLOURS.table, lambda table: HEAT_COLOURS.name_of(900, table)):
        with pytest.raises(
            NotKnown, match=r"^There is no table of heat colours “Nobody”; .*White and Taylor"
        ):
            ask("Nobody")
