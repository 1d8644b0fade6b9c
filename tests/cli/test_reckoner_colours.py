"""Colours are told both ways, in every table, with a swatch where the terminal can show one."""

from __future__ import annotations

import re

import pytest

from coach.cli.painting import Swatched, has_colour, printed
from coach.fire.glow import glow_rgb
from tests.cli.conftest import Coach


def value_of(figure: dict[str, object] | None) -> object:
    return figure and figure["value"]


def rows(coach: Coach, *words: str) -> list[tuple[object, object, object]]:
    found = coach("colour", *words, "--json").part("colours")
    assert isinstance(found, list)
    return [(row["table"], row["name"], value_of(row["temperature"])) for row in found]


def test_a_word_is_told_in_each_table_that_has_it(coach: Coach) -> None:
    # F. W. Taylor and M. White 1899/1900 and H. M. Howe 1900 (from memory).
    assert rows(coach, "light", "yellow") == [
        ("White and Taylor", "light yellow", 1079),
        ("Howe", "light yellow", 1050),
    ]


def test_a_temperature_is_told_in_every_table_in_celsius_and_fahrenheit(coach: Coach) -> None:
    said = coach("colour", "1652F", "--json")
    assert said.part("temperature", "value") == 900
    assert [(table, name) for table, name, _ in rows(coach, "900")] == [
        ("White and Taylor", "orange"),
        ("Howe", "light red"),
        ("Machinery's Handbook", "cherry"),
        ("Dooley", "cherry"),
        ("Stirling", "full cherry"),
    ]
    assert "899 °C, 1650 °F" in coach("colour", "900").out


def test_a_bare_colour_lists_the_table_and_a_named_one_another(coach: Coach) -> None:
    assert len(rows(coach)) == 11
    assert {table for table, _, _ in rows(coach)} == {"White and Taylor"}
    assert {table for table, _, _ in rows(coach, "--table", "howe")} == {"Howe"}
    assert coach("colour", "--json").part("temperature") is None


def test_tempering_has_its_own_colours_and_uses(coach: Coach) -> None:
    # Butt: hatchets and chipping chisels at brown-yellow, 500 °F (confirmed).
    found = coach("colour", "260", "--temper", "--table", "Butt", "--json").part("colours")
    assert isinstance(found, list)
    assert (found[0]["name"], found[0]["temperature"]["value"]) == ("brown-yellow", 260)
    assert found[0]["uses"] == ["hatchets", "chipping chisels"]
    assert "for hatchets" in coach("colour", "260", "--temper", "--table", "Butt").out
    # The mean of five sources for blue, 572 °F (confirmed).
    assert coach("colour", "blue", "--temper", "--json").part("temperature", "value") == 300


def test_the_swatch_of_a_heat_is_that_of_glowing_metal(coach: Coach) -> None:
    said = coach("colour", "900", "--json")
    assert said.part("rgb") == list(glow_rgb(900))


def test_a_heat_without_a_colour_says_so(coach: Coach) -> None:
    assert {name for _, name, _ in rows(coach, "300")} == {"no colour yet"}
    assert {name for _, name, _ in rows(coach, "450", "--temper")} == {"past the colours"}


def test_each_row_begins_with_its_swatch_where_there_is_colour(
    coach: Coach, monkeypatch: pytest.MonkeyPatch
) -> None:
    plain = coach("colour").out
    assert "\x1b" not in plain
    monkeypatch.setattr("coach.cli.painting.has_colour", lambda: True)
    painted = coach("colour").out
    found = re.findall(r"^\x1b\[48;2;(\d+);(\d+);(\d+)m {6}\x1b\[0m {2}(\d+) °C", painted, re.MULTILINE)
    # White and Taylor's eleven, the coolest at 532 °C (from memory).
    assert [row[3] for row in found] == [row.split()[0] for row in plain.splitlines() if " °C, " in row]
    assert tuple(map(int, found[0][:3])) == glow_rgb(532)
    # With the swatches taken away the words are the same.
    assert re.sub(r"\x1b\[[0-9;]*m", "", painted) == plain


def test_what_is_typed_cannot_paint_the_terminal() -> None:
    line = printed(Swatched("        \x1b[31mred", (1, 2, 3)), colour=True)
    assert line.count("\x1b") == 2
    assert "\x1b[31m" not in line
    assert printed(Swatched("        red", (1, 2, 3)), colour=False) == "        red"


@pytest.mark.parametrize(
    ("environment", "coloured"),
    [
        ({"TERM": "xterm-256color", "COLORTERM": "truecolor"}, True),
        ({"TERM": "xterm", "COLORTERM": "24bit"}, True),
        ({"TERM": "xterm-direct"}, True),
        ({"TERM": "xterm-256color"}, False),
        ({"TERM": "dumb", "COLORTERM": "truecolor"}, False),
        ({"TERM": "xterm", "COLORTERM": "truecolor", "NO_COLOR": "1"}, False),
        # An empty NO_COLOR does not count: no-color.org (from memory).
        ({"TERM": "xterm", "COLORTERM": "truecolor", "NO_COLOR": ""}, True),
        ({}, False),
    ],
)
def test_a_swatch_needs_a_terminal_of_true_colour(
    environment: dict[str, str], coloured: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("sys.stdout.isatty", lambda: True)
    assert has_colour(environment) is coloured
    monkeypatch.setattr("sys.stdout.isatty", lambda: False)
    assert has_colour(environment) is False


def test_a_colour_of_tempering_asked_as_one_of_heat_is_told_where_it_stands(coach: Coach) -> None:
    # Straw is an oxide film, orange a glow (common practice, no source).
    assert "“straw” is a colour of tempering" in coach("colour", "straw").err
    assert "--temper" in coach("colour", "straw").err
    assert "“orange” is a colour of heat" in coach("colour", "orange", "--temper").err
    assert "nearest" in coach("colour", "yelow").err
