"""Tests of what the colour of the oxide film says."""

from __future__ import annotations

import colorsys
import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coach.fire.colours import NO_COLOUR, PAST_COLOURS, ColourTable, NamedColour
from coach.fire.temper_colours import TEMPER_COLOURS, TEMPER_DOUBT_C, temper_rgb
from coach.quantities.refusal import NotKnown, OutOfRange

ALL = [(table, colour) for table in TEMPER_COLOURS.tables for colour in table.colours]

temperatures_c = st.floats(min_value=-20, max_value=1600)


def celsius(fahrenheit: float) -> float:
    return (fahrenheit - 32) * 5 / 9


@pytest.mark.parametrize(
    ("name", "fahrenheit"),
    [
        # Colvin and Juthe, The Working of Steel, 1921: averages of five sources, printed 430, 458, 478, 523,
        # 551, 572, 603 and 627; confirmed, and the averages worked again from the printed columns.
        ("faint yellow", 430),
        ("light straw", 458.75),
        ("dark straw", 478),
        ("reddish purple", 523),
        ("bluish purple", 551.25),
        ("blue", 572),
        ("grey blue", 1810 / 3),
        ("greenish blue", 627.5),
    ],
)
def test_the_default_table_is_the_average_of_five_sources(name: str, fahrenheit: float) -> None:
    assert TEMPER_COLOURS.temperature_c(name) == pytest.approx(celsius(fahrenheit), abs=1e-9)


def test_the_averages_in_degrees_celsius_are_the_published_ones() -> None:
    # The averages above in whole °C, worked apart from the program.
    assert [round(colour.temperature_c) for colour in TEMPER_COLOURS.table().colours] == [
        221,
        237,
        248,
        273,
        288,
        300,
        317,
        331,
    ]


@pytest.mark.parametrize(
    ("table", "name", "fahrenheit"),
    [
        # Machinery's Handbook; from memory.
        ("Machinery's Handbook", "very pale yellow", 430),
        ("Machinery's Handbook", "straw", 460),
        ("Machinery's Handbook", "brown-yellow", 500),
        ("Machinery's Handbook", "full purple", 540),
        ("Machinery's Handbook", "full blue", 560),
        ("Machinery's Handbook", "very dark blue", 600),
        ("Machinery's Handbook", "light blue", 640),
        # Dooley, Applied Science for Metal Workers, §458; confirmed.
        ("Dooley", "very pale yellow", 430),
        ("Dooley", "straw", 460),
        ("Dooley", "dark straw", 480),
        ("Dooley", "brownish yellow", 500),
        ("Dooley", "light purple", 530),
        ("Dooley", "dark purple", 550),
        ("Dooley", "dark blue", 570),
        ("Dooley", "pale blue", 610),
        # The Working of Steel, table 26; confirmed.
        ("The Working of Steel, tools", "yellow", 440),
        ("The Working of Steel, tools", "dark purple", 550),
        ("The Working of Steel, tools", "blue", 600),
        # Butt, The Tinman's Manual; confirmed.
        ("Butt", "very pale straw", 430),
        ("Butt", "purple", 530),
        ("Butt", "dark blue", 600),
    ],
)
def test_the_other_tables_are_as_published(table: str, name: str, fahrenheit: float) -> None:
    assert TEMPER_COLOURS.temperature_c(name, table) == pytest.approx(celsius(fahrenheit), abs=1e-9)


@pytest.mark.parametrize(("table", "colour"), ALL, ids=lambda one: one.name)
def test_every_colour_reads_back_to_its_temperature(table: ColourTable, colour: NamedColour) -> None:
    for word in (colour.name, *colour.aliases):
        assert TEMPER_COLOURS.temperature_c(word, table.name) == colour.temperature_c
    assert TEMPER_COLOURS.name_of(colour.temperature_c, table.name) == colour.name


@pytest.mark.parametrize("table", TEMPER_COLOURS.tables, ids=lambda table: table.name)
def test_a_table_rises_and_uses_each_word_once(table: ColourTable) -> None:
    assert all(cool.temperature_c < hot.temperature_c for cool, hot in pairwise(table.colours))
    words = [word for colour in table.colours for word in (colour.name, *colour.aliases)]
    assert len(words) == len(set(words))
    assert table.source.endswith(("(confirmed)", "(confirmed second-hand)", "(from memory)"))
    assert TEMPER_COLOURS.table(table.name.upper()) is table


def test_every_source_lies_within_the_doubt_of_the_average() -> None:
    # The columns of The Working of Steel, as printed in °F.
    for name, figures in {
        "faint yellow": (430, 430, 430, 430, 430),
        "light straw": (475, 460, 450, 450),
        "dark straw": (500, 500, 470, 450, 470),
        "reddish purple": (525, 530, 520, 530, 510),
        "bluish purple": (555, 550, 550, 550),
        "blue": (575, 585, 560, 580, 560),
        "grey-blue": (600, 600, 610),
        "greenish blue": (625, 630),
    }.items():
        assert all(
            abs(celsius(one) - TEMPER_COLOURS.temperature_c(name)) <= TEMPER_DOUBT_C for one in figures
        )


def test_outside_the_scale_there_is_no_temper_colour() -> None:
    assert TEMPER_COLOURS.name_of(20) == TEMPER_COLOURS.name_of(celsius(429)) == NO_COLOUR
    assert TEMPER_COLOURS.name_of(celsius(640)) == "greenish blue"
    assert TEMPER_COLOURS.name_of(400) == TEMPER_COLOURS.name_of(900) == PAST_COLOURS


@given(temperatures_c, temperatures_c)
def test_hotter_steel_never_has_a_cooler_colour(one_c: float, other_c: float) -> None:
    order = [NO_COLOUR, *(colour.name for colour in TEMPER_COLOURS.table().colours), PAST_COLOURS]
    cooler, hotter = sorted((one_c, other_c))
    assert order.index(TEMPER_COLOURS.name_of(cooler)) <= order.index(TEMPER_COLOURS.name_of(hotter))


def test_each_table_says_what_it_calls_a_temperature_and_tempers_to_it() -> None:
    rows = {row.table.name: row for row in TEMPER_COLOURS.near(celsius(550))}
    assert list(rows) == [table.name for table in TEMPER_COLOURS.tables]
    tools = rows["The Working of Steel, tools"]
    assert tools.name == "dark purple"
    assert tools.colour is not None
    # The Working of Steel, table 26: 550 °F for cold chisels, axes and augers; confirmed.
    assert tools.colour.uses == ("cold chisels", "axes", "augers")
    assert all(row.colour is None for row in TEMPER_COLOURS.near(900))


def test_a_word_is_told_from_every_table_that_has_it() -> None:
    found = [(one.table.name, one.colour) for one in TEMPER_COLOURS.meanings("Dark-Blue")]
    told = {table: round(colour.temperature_c * 1.8 + 32, 9) for table, colour in found if colour}
    # Machinery's Handbook (from memory), Dooley and Butt (confirmed), which do not agree.
    assert told == {"Machinery's Handbook": 570, "Dooley": 570, "Butt": 600}
    with pytest.raises(NotKnown, match=r"the nearest is dark blue\.$"):
        TEMPER_COLOURS.meanings("darc blue")


def test_a_misspelt_colour_is_answered_with_the_nearest() -> None:
    with pytest.raises(
        NotKnown, match=r"^There is no temper colour “ligt straw”; the nearest is light straw\.$"
    ):
        TEMPER_COLOURS.temperature_c("ligt straw")


@pytest.mark.parametrize("name", ["", "   ", "mauve", "x" * 10_000, "\n\n", "[/] [b", "赤"])
def test_a_strange_colour_is_answered_in_one_short_sentence(name: str) -> None:
    for ask in (TEMPER_COLOURS.temperature_c, TEMPER_COLOURS.meanings):
        with pytest.raises(NotKnown) as refused:
            ask(name)
        sentence = str(refused.value)
        assert sentence.endswith(".")
        assert "\n" not in sentence
        assert len(sentence) < 300


def test_an_unknown_table_is_answered_with_the_tables_there_are() -> None:
    for ask in (TEMPER_COLOURS.table, lambda table: TEMPER_COLOURS.name_of(250, table)):
        with pytest.raises(
            NotKnown,
            match=r"^There is no table of temper colours “Nobody”; there are The Working of Steel, ",
        ):
            ask("Nobody")


@pytest.mark.parametrize("temperature_c", [-20.1, 1600.1, math.inf, -math.inf, math.nan])
def test_a_temperature_out_of_the_range_is_refused(temperature_c: float) -> None:
    with pytest.raises(OutOfRange):
        temper_rgb(temperature_c)


def test_the_swatch_turns_one_way_from_yellow_over_purple_and_blue_to_green() -> None:
    turned = 0.0
    hues = [
        colorsys.rgb_to_hsv(*(channel / 255 for channel in temper_rgb(temperature_c)))[0] * 360
        for temperature_c in range(222, 332)
    ]
    for earlier, later in pairwise(hues):
        back = (earlier - later + 180) % 360 - 180
        assert back > -2.5  # as much as the steps of 8 bits may turn a pale colour back
        turned += back
    # From yellow down the wheel over red, purple and blue to cyan.
    assert 200 < turned < 260
    assert 40 < hues[0] < 60
    assert 170 < hues[-1] < 200


@pytest.mark.parametrize(
    ("name", "strongest", "weakest"),
    [
        ("light straw", 0, 2),
        ("dark straw", 0, 2),
        ("reddish purple", 0, 1),
        ("bluish purple", 2, 1),
        ("blue", 2, 0),
        ("grey-blue", 2, 0),
        ("greenish blue", 2, 0),
    ],
)
def test_a_swatch_has_the_colour_of_its_name(name: str, strongest: int, weakest: int) -> None:
    rgb = temper_rgb(TEMPER_COLOURS.temperature_c(name))
    assert max(range(3), key=rgb.__getitem__) == strongest
    assert min(range(3), key=rgb.__getitem__) == weakest


def test_bright_steel_and_a_grey_film_stand_at_the_ends_of_the_swatches() -> None:
    bare, grey = temper_rgb(20), temper_rgb(400)
    assert temper_rgb(200) == bare
    assert temper_rgb(1000) == grey
    assert max(bare) - min(bare) < 10
    assert max(grey) - min(grey) < 10
    assert min(bare) > max(grey)
