"""What the colour of the oxide film on bright steel says about the heat it was tempered at.

The film grows with time as well as with heat: steel held longer shows the same colour at a lower
temperature. The tables are meant for plain carbon steel, bright and clean, whose colours run in a few
minutes; after an hour in an oven the colour says nothing of the kind, and the oven's figure counts.
"""

from __future__ import annotations

import math
from bisect import bisect_right
from functools import lru_cache
from typing import Final

from coach.fire.glow import check_glow
from coach.fire.naming import ColourTable, ColourTables, NamedColour
from coach.fire.srgb import Linear, Rgb, linear_from_rgb, rgb_from_linear

#: No temper colour is trusted better than plus or minus this, in °C. Judgement: of the five sources
#: of the default table none is further from their mean than 15.6 °C (dark straw, 450 °F and 478 °F).
TEMPER_DOUBT_C: Final = 16.0


def temper_temperature_c(name: str) -> float:
    """The temperature in °C that a temper colour stands for, good to TEMPER_DOUBT_C at best.

    It holds for colours that run in a few minutes. Raises NotKnown.

    >>> round(temper_temperature_c("dark straw"), 1)
    247.8
    """
    return TEMPER_COLOURS.temperature_c(name)


def temper_name(temperature_c: float) -> str:
    """The name of the temper colour nearest to a temperature in °C that is reached in a few minutes.

    "past the colours" more than TEMPER_DOUBT_C above the last, where the film turns grey.

    >>> temper_name(290)
    'bluish purple'
    """
    return TEMPER_COLOURS.name_of(temperature_c)


def temper_rgb(temperature_c: float) -> Rgb:
    """The colour of a swatch for a temperature in °C.

    The films are interference colours, which no paint matches; these are how they look on a bright surface
    in daylight (judgement), and between them the light is mixed in straight lines. Bare steel is shown below
    400 °F (204 °C), a grey film above 700 °F (371 °C). To the nearest whole °C; raises OutOfRange outside
    -20 to 1600 °C.

    >>> temper_rgb(237), temper_rgb(300)
    ((223, 186, 97), (48, 62, 150))
    """
    check_glow(temperature_c)
    return _swatch(round(temperature_c))


def _colour(
    name: str, aliases: tuple[str, ...], figures_f: tuple[float, ...], uses: tuple[str, ...] = ()
) -> NamedColour:
    """A colour as published in °F: one figure, both ends of a range or several sources; their mean counts."""
    return NamedColour(name, aliases, (math.fsum(figures_f) / len(figures_f) - 32.0) / 1.8, uses)


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
    ColourTable(
        "The Working of Steel",
        "F. H. Colvin and K. A. Juthe, The Working of Steel (1921), tempering colours on carbon steels: the "
        "mean of five sources (confirmed)",
        (
            _colour("faint yellow", ("pale yellow", "yellow"), (430, 430, 430, 430, 430)),
            _colour("light straw", ("straw",), (475, 460, 450, 450)),
            _colour("dark straw", (), (500, 500, 470, 450, 470)),
            _colour("reddish purple", ("purple reddish", "purple"), (525, 530, 520, 530, 510)),
            _colour("bluish purple", ("purple bluish",), (555, 550, 550, 550)),
            _colour("blue", (), (575, 585, 560, 580, 560)),
            _colour("grey-blue", ("gray blue",), (600, 600, 610)),
            _colour("greenish blue", (), (625, 630)),
        ),
    ),
    ColourTable(
        "Machinery's Handbook",
        "Machinery's Handbook, temper colours of steel, published in °F (from memory)",
        (
            _colour("very pale yellow", (), (430,)),
            _colour("light yellow", (), (440,)),
            _colour("pale straw", ("pale straw yellow",), (450,)),
            _colour("straw", ("straw yellow",), (460,)),
            _colour("deep straw", ("deep straw yellow",), (470,)),
            _colour("dark yellow", (), (480,)),
            _colour("yellow-brown", (), (490,)),
            _colour("brown-yellow", ("brown",), (500,)),
            _colour("spotted red-brown", (), (510,)),
            _colour("brown-purple", (), (520,)),
            _colour("light purple", (), (530,)),
            _colour("full purple", ("purple",), (540,)),
            _colour("dark purple", (), (550,)),
            _colour("full blue", ("blue",), (560,)),
            _colour("dark blue", (), (570,)),
            _colour("very dark blue", (), (600,)),
            _colour("light blue", (), (640,)),
        ),
    ),
    ColourTable(
        "Dooley",
        "W. H. Dooley, Applied Science for Metal Workers, §458, published in °F (confirmed)",
        (
            _colour("very pale yellow", (), (430,)),
            _colour("straw yellow", ("straw",), (460,), ("taps", "dies")),
            _colour("dark straw", (), (480,), ("reamers", "knives", "punches", "dies")),
            _colour("brownish yellow", ("brown",), (500,), ("drills", "stone-cutting tools")),
            _colour("yellow tinged with purple", ("yellow tinged purple",), (520,), ("draft pins",)),
            _colour("light purple", (), (530,), ("cold chisels for steel", "augers")),
            _colour(
                "dark purple",
                (),
                (550,),
                ("springs", "screwdrivers", "cold chisels for iron", "hatchets"),
            ),
            _colour("dark blue", (), (570,), ("saws for wood",)),
            _colour("pale blue", (), (610,)),
            _colour("blue-green", ("blue tinged with green",), (630,)),
        ),
    ),
    ColourTable(
        "The Working of Steel, tools",
        "F. H. Colvin and K. A. Juthe, The Working of Steel (1921), table 26, published in °F (confirmed)",
        (
            _colour(
                "yellow",
                (),
                (430, 450),
                ("thread chasers", "twist drills", "reamers", "dies"),
            ),
            _colour("straw", (), (460,), ("shear blades", "boring tools", "engraving tools")),
            _colour("brown-yellow", ("brown",), (500,), ("taps", "thread dies")),
            _colour("light purple", (), (530,), ("rock drills", "knives", "punches")),
            _colour("dark purple", (), (550,), ("cold chisels", "axes", "augers")),
            _colour("pale blue", (), (580,), ("chisels", "needles")),
            _colour("blue", (), (600,), ("wood saws", "springs")),
        ),
    ),
    ColourTable(
        "Butt",
        "I. R. Butt, The Tinman's Manual and Builder's and Mechanic's Handbook, published in °F (confirmed)",
        (
            _colour("very pale straw", (), (430,), ("lancets",)),
            _colour("straw", (), (450,), ("razors",)),
            _colour("darker straw", ("dark straw",), (470,), ("penknives",)),
            _colour("yellow", (), (490,), ("scissors",)),
            _colour("brown-yellow", ("brown",), (500,), ("hatchets", "chipping chisels")),
            _colour("slightly tinged purple", (), (520,), ("saws",)),
            _colour("purple", (), (530,), ("percussive tools",)),
            _colour("dark purple", (), (550,), ("springs",)),
            _colour("blue", (), (570,)),
            _colour("dark blue", (), (600,)),
        ),
    ),
)
TEMPER_COLOURS: Final = ColourTables("temper colour", _TABLES, TEMPER_DOUBT_C)
