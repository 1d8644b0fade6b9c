"""Tests of how a colour is told by every table at once."""

from __future__ import annotations

import math

import pytest

from coach.fire.colours import HEAT_COLOURS, NO_COLOUR
from coach.quantities.refusal import NotKnown, OutOfRange


@pytest.mark.parametrize("temperature_c", [20, 400, 532, 746, 900, 1200, 1600])
def test_every_table_says_what_it_calls_a_heat(temperature_c: float) -> None:
    rows = HEAT_COLOURS.near(temperature_c)
    assert tuple(row.table for row in rows) == HEAT_COLOURS.tables
    for row in rows:
        assert row.name == HEAT_COLOURS.name_of(temperature_c, row.table.name)
        assert (row.colour is None) == (row.name == NO_COLOUR)


def test_a_word_is_told_from_every_table_that_has_it() -> None:
    told = {one.table.name: one.colour.temperature_c for one in HEAT_COLOURS.meanings("Cherry") if one.colour}
    # White and Taylor and Howe (from memory), Machinery's Handbook and Stirling (confirmed second-hand), and
    # Dooley (confirmed): the tables differ by 200 °C.
    assert told == {
        "White and Taylor": 746,
        "Howe": 700,
        "Machinery's Handbook": 900,
        "Dooley": 902,
        "Stirling": 900,
    }
    # Published as 1652 and 1655 °F, kept in whole °C.
    assert told["Machinery's Handbook"] * 1.8 + 32 == pytest.approx(1652, abs=0.5)
    assert told["Dooley"] * 1.8 + 32 == pytest.approx(1655, abs=1)


def test_a_word_that_only_another_table_has_is_found() -> None:
    assert [one.table.name for one in HEAT_COLOURS.meanings("dazzling white")] == [
        "Machinery's Handbook",
        "Dooley",
        "Stirling",
    ]


@pytest.mark.parametrize("word", ["", "mauve", "x" * 10_000, "\n", "yelow", "赤"])
def test_a_word_that_no_table_has_is_answered_in_one_short_sentence(word: str) -> None:
    with pytest.raises(NotKnown) as refused:
        HEAT_COLOURS.meanings(word)
    sentence = str(refused.value)
    assert sentence.startswith("There is no heat colour ")
    assert sentence.endswith(".")
    assert "\n" not in sentence
    assert len(sentence) < 300


@pytest.mark.parametrize("temperature_c", [math.nan, math.inf, -math.inf])
def test_what_is_no_temperature_has_no_names(temperature_c: float) -> None:
    with pytest.raises(OutOfRange, match=r"^A temperature in °C was expected, not -?(nan|inf)\.$"):
        HEAT_COLOURS.near(temperature_c)
