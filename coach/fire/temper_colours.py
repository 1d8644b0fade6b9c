"""What the colour of the oxide film on bright steel says about the heat it was tempered at.

The film grows with time as well as with heat: steel held longer shows the same colour at a lower
temperature. The tables are meant for plain carbon steel, bright and clean, whose colours run in a few
minutes; after an hour in an oven the colour says nothing of the kind, and the oven's figure counts.
"""

from __future__ import annotations

import math
from bisect import bisect_right
from dataclasses import dataclass
from functools import lru_cache
from typing import Final

from coach.fire.glow import check_glow
from coach.fire.naming import (
    NO_COLOUR,
    InTable,
    Meaning,
    by_word,
    fold,
    meanings_in,
    nearest,
)
from coach.fire.srgb import Linear, Rgb, linear_from_rgb, rgb_from_linear
from coach.quantities.errors import not_known

#: No temper colour is trusted better than plus or minus this, in °C. Judgement: of the five sources
#: of the default table none is further from their mean than 15.6 °C (dark straw, 450 °F and 478 °F).
TEMPER_DOUBT_C: Final = 16.0

DEFAULT_TABLE: Final = "The Working of Steel"
PAST_COLOURS: Final = "past the colours"


@dataclass(frozen=True, slots=True)
class TemperColour:
    """One colour of the oxide film."""

    name: str
    aliases: tuple[str, ...]
    figures_f: tuple[float, ...]  # as published, in °F: one figure, both ends of a range or several sources
    uses: tuple[str, ...] = ()  # the tools that the table tempers to this colour

    @property
    def temperature_f(self) -> float:
        """The mean of the published figures, in °F."""
        return math.fsum(self.figures_f) / len(self.figures_f)

    @property
    def temperature_c(self) -> float:
        """The same temperature in °C, not rounded."""
        return (self.temperature_f - 32.0) / 1.8


@dataclass(frozen=True, slots=True)
class TemperTable:
    """A published table of temper colours, coolest first."""

    name: str
    source: str  # with how far it is confirmed, in brackets at its end
    colours: tuple[TemperColour, ...]


def temper_table(name: str = DEFAULT_TABLE) -> TemperTable:
    """The table of this name; raises NotKnown."""
    for table in _TABLES:
        if fold(table.name) == fold(name):
            return table
    raise not_known("table of temper colours", name, {fold(table.name): table.name for table in _TABLES})


def temper_colours(table: str = DEFAULT_TABLE) -> tuple[TemperColour, ...]:
    """The colours of a table, coolest first; raises NotKnown when there is no such table."""
    return temper_table(table).colours


def temper_temperature_c(name: str, table: str = DEFAULT_TABLE) -> float:
    """The temperature in °C that a temper colour stands for, good to TEMPER_DOUBT_C at best.

    It holds for colours that run in a few minutes. Raises NotKnown, which gives the nearest word.

    >>> round(temper_temperature_c("dark straw"), 1)
    247.8
    """
    colours = temper_colours(table)
    known = by_word(colours)
    if fold(name) not in known:
        raise not_known("temper colour", name, {word: word for word in known}, [one.name for one in colours])
    return known[fold(name)].temperature_c


def temper_name(temperature_c: float, table: str = DEFAULT_TABLE) -> str:
    """The name of the temper colour nearest to a temperature in °C that is reached in a few minutes.

    "no colour yet" below the first colour and "past the colours" more than TEMPER_DOUBT_C above the last,
    where the film turns grey; of two colours equally near, the cooler. Raises NotKnown when there is no
    such table and OutOfRange outside -20 to 1600 °C.

    >>> temper_name(290)
    'bluish purple'
    """
    check_glow(temperature_c)
    return _near(temper_table(table), temperature_c).name


def temper_names_near(temperature_c: float) -> tuple[InTable[TemperColour], ...]:
    """What each table calls a temperature in °C, the default table first; raises OutOfRange.

    >>> [row.colour.uses for row in temper_names_near(260) if row.colour and row.table == "Butt"]
    [('hatchets', 'chipping chisels')]
    """
    check_glow(temperature_c)
    return tuple(_near(table, temperature_c) for table in _TABLES)


def temper_meanings(word: str) -> tuple[Meaning[TemperColour], ...]:
    """The colour that a word stands for in each table that has the word, the default table first.

    Raises NotKnown, which gives the nearest word of any table, when none has it.

    >>> [(table, colour.temperature_f) for table, colour in temper_meanings("dark blue")]
    [("Machinery's Handbook", 570.0), ('Dooley', 570.0), ('Butt', 600.0)]
    """
    found = meanings_in(word, {table.name: table.colours for table in _TABLES})
    if not found:
        words = by_word(colour for table in _TABLES for colour in table.colours)
        names = [colour.name for colour in temper_colours()]
        raise not_known("temper colour", word, {one: one for one in words}, names)
    return found


def temper_rgb(told: str | float, table: str = DEFAULT_TABLE) -> Rgb:
    """The colour of a swatch for a temper colour by its name, or for a temperature in °C.

    The films are interference colours, which no paint matches; these are how they look on a bright surface
    in daylight (judgement), and between them the light is mixed in straight lines. Bare steel is shown below
    400 °F (204 °C), a grey film above 700 °F (371 °C). To the nearest whole °C; raises NotKnown, and
    OutOfRange outside -20 to 1600 °C.

    >>> temper_rgb("light straw"), temper_rgb(300)
    ((223, 186, 97), (48, 62, 150))
    """
    temperature_c = temper_temperature_c(told, table) if isinstance(told, str) else told
    check_glow(temperature_c)
    return _swatch(round(temperature_c))


def _near(table: TemperTable, temperature_c: float) -> InTable[TemperColour]:
    if temperature_c < table.colours[0].temperature_c:
        return InTable(table.name, NO_COLOUR, None)
    if temperature_c > table.colours[-1].temperature_c + TEMPER_DOUBT_C:
        return InTable(table.name, PAST_COLOURS, None)
    colour = nearest(table.colours, temperature_c)
    return InTable(table.name, colour.name, colour)


@lru_cache(maxsize=512)
def _swatch(whole_c: int) -> Rgb:
    temperature_f = whole_c * 1.8 + 32.0
    if temperature_f <= _SWATCHES[0][0]:
        return _SWATCHES[0][1]
    if temperature_f >= _SWATCHES[-1][0]:
        return _SWATCHES[-1][1]
    row = bisect_right([at_f for at_f, _ in _SWATCHES], temperature_f)
    (below_f, below), (above_f, above) = _SWATCHES[row - 1 : row + 1]
    share = (temperature_f - below_f) / (above_f - below_f)
    return rgb_from_linear(_mixed(linear_from_rgb(below), linear_from_rgb(above), share))


def _mixed(one: Linear, other: Linear, share: float) -> Linear:
    red, green, blue = (a + share * (b - a) for a, b in zip(one, other, strict=True))
    return (red, green, blue)


#: What the film looks like at a temperature in °F on a bright surface in daylight (judgement).
_SWATCHES: Final[tuple[tuple[float, Rgb], ...]] = (
    (400.0, (200, 200, 198)),  # bare steel
    (430.0, (236, 222, 160)),  # very pale yellow
    (460.0, (222, 184, 92)),  # straw
    (480.0, (200, 150, 62)),  # dark straw
    (500.0, (168, 110, 50)),  # brown
    (520.0, (140, 72, 72)),  # brown with purple
    (530.0, (132, 64, 110)),  # light purple
    (540.0, (112, 52, 128)),  # full purple
    (550.0, (82, 46, 130)),  # dark purple
    (572.0, (48, 62, 150)),  # blue
    (600.0, (78, 104, 156)),  # grey-blue
    (627.5, (98, 146, 152)),  # greenish blue
    (640.0, (116, 154, 162)),
    (700.0, (128, 134, 136)),  # grey
)

_TABLES: Final = (
    TemperTable(
        DEFAULT_TABLE,
        "F. H. Colvin and K. A. Juthe, The Working of Steel (1921), tempering colours on carbon steels: the "
        "mean of five sources (confirmed)",
        (
            TemperColour("faint yellow", ("pale yellow", "yellow"), (430, 430, 430, 430, 430)),
            TemperColour("light straw", ("straw",), (475, 460, 450, 450)),
            TemperColour("dark straw", (), (500, 500, 470, 450, 470)),
            TemperColour("reddish purple", ("purple reddish", "purple"), (525, 530, 520, 530, 510)),
            TemperColour("bluish purple", ("purple bluish",), (555, 550, 550, 550)),
            TemperColour("blue", (), (575, 585, 560, 580, 560)),
            TemperColour("grey-blue", ("gray blue",), (600, 600, 610)),
            TemperColour("greenish blue", (), (625, 630)),
        ),
    ),
    TemperTable(
        "Machinery's Handbook",
        "Machinery's Handbook, temper colours of steel, published in °F (from memory)",
        (
            TemperColour("very pale yellow", (), (430,)),
            TemperColour("light yellow", (), (440,)),
            TemperColour("pale straw", ("pale straw yellow",), (450,)),
            TemperColour("straw", ("straw yellow",), (460,)),
            TemperColour("deep straw", ("deep straw yellow",), (470,)),
            TemperColour("dark yellow", (), (480,)),
            TemperColour("yellow-brown", (), (490,)),
            TemperColour("brown-yellow", ("brown",), (500,)),
            TemperColour("spotted red-brown", (), (510,)),
            TemperColour("brown-purple", (), (520,)),
            TemperColour("light purple", (), (530,)),
            TemperColour("full purple", ("purple",), (540,)),
            TemperColour("dark purple", (), (550,)),
            TemperColour("full blue", ("blue",), (560,)),
            TemperColour("dark blue", (), (570,)),
            TemperColour("very dark blue", (), (600,)),
            TemperColour("light blue", (), (640,)),
        ),
    ),
    TemperTable(
        "Dooley",
        "W. H. Dooley, Applied Science for Metal Workers, §458, published in °F (confirmed)",
        (
            TemperColour("very pale yellow", (), (430,)),
            TemperColour("straw yellow", ("straw",), (460,), ("taps", "dies")),
            TemperColour("dark straw", (), (480,), ("reamers", "knives", "punches", "dies")),
            TemperColour("brownish yellow", ("brown",), (500,), ("drills", "stone-cutting tools")),
            TemperColour("yellow tinged with purple", ("yellow tinged purple",), (520,), ("draft pins",)),
            TemperColour("light purple", (), (530,), ("cold chisels for steel", "augers")),
            TemperColour(
                "dark purple",
                (),
                (550,),
                ("springs", "screwdrivers", "cold chisels for iron", "hatchets"),
            ),
            TemperColour("dark blue", (), (570,), ("saws for wood",)),
            TemperColour("pale blue", (), (610,)),
            TemperColour("blue-green", ("blue tinged with green",), (630,)),
        ),
    ),
    TemperTable(
        "The Working of Steel, tools",
        "F. H. Colvin and K. A. Juthe, The Working of Steel (1921), table 26, published in °F (confirmed)",
        (
            TemperColour(
                "yellow",
                (),
                (430, 450),
                ("thread chasers", "twist drills", "reamers", "dies"),
            ),
            TemperColour("straw", (), (460,), ("shear blades", "boring tools", "engraving tools")),
            TemperColour("brown-yellow", ("brown",), (500,), ("taps", "thread dies")),
            TemperColour("light purple", (), (530,), ("rock drills", "knives", "punches")),
            TemperColour("dark purple", (), (550,), ("cold chisels", "axes", "augers")),
            TemperColour("pale blue", (), (580,), ("chisels", "needles")),
            TemperColour("blue", (), (600,), ("wood saws", "springs")),
        ),
    ),
    TemperTable(
        "Butt",
        "I. R. Butt, The Tinman's Manual and Builder's and Mechanic's Handbook, published in °F (confirmed)",
        (
            TemperColour("very pale straw", (), (430,), ("lancets",)),
            TemperColour("straw", (), (450,), ("razors",)),
            TemperColour("darker straw", ("dark straw",), (470,), ("penknives",)),
            TemperColour("yellow", (), (490,), ("scissors",)),
            TemperColour("brown-yellow", ("brown",), (500,), ("hatchets", "chipping chisels")),
            TemperColour("slightly tinged purple", (), (520,), ("saws",)),
            TemperColour("purple", (), (530,), ("percussive tools",)),
            TemperColour("dark purple", (), (550,), ("springs",)),
            TemperColour("blue", (), (570,)),
            TemperColour("dark blue", (), (600,)),
        ),
    ),
)
