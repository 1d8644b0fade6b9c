"""What the colour of glowing steel says about its temperature.

Colour words are subjective: they depend on the light of the shop and on the eye, and the published tables
differ by as much as 150 °C on the word cherry. So a colour is told with its temperature and its table, and
it never replaces a magnet or a pyrometer.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final

from coach.fire.naming import ColourTable, ColourTables, NamedColour

#: No colour word is trusted better than plus or minus this, in °C. Shop judgement.
COLOUR_DOUBT_C: Final = 40.0
#: A pyrometer's figure is better than a colour, in °C (common practice, no source).
FIGURE_DOUBT_C: Final = 15.0


def colour_temperature_c(name: str) -> float:
    """The temperature in °C that a heat colour stands for, good to COLOUR_DOUBT_C at best; raises NotKnown.

    >>> colour_temperature_c("Light-Orange")
    941.0
    """
    return HEAT_COLOURS.temperature_c(name)


def colour_name(temperature_c: float) -> str:
    """The name of the heat colour nearest to a temperature in °C.

    >>> colour_name(900)
    'orange'
    """
    return HEAT_COLOURS.name_of(temperature_c)


def _table(name: str, source: str, rows: Iterable[tuple[float, str]]) -> ColourTable:
    colours = []
    for temperature_c, words in rows:
        first, *others = words.split(", ")
        colours.append(NamedColour(first, tuple(others), float(temperature_c)))
    return ColourTable(name, source, tuple(colours))


_TABLES: Final = (
    _table(
        "White and Taylor",
        "F. W. Taylor and M. White, Colors of Heated Steel Corresponding to Different Degrees of "
        "Temperature, Transactions of the ASME 21 (1899/1900), p. 627 (from memory)",
        (
            (532, "dark blood red, black red"),
            (566, "blood red, dark red, low red"),
            (635, "dark cherry red, dark cherry"),
            (677, "medium cherry red, medium cherry"),
            (746, "cherry, cherry red, full cherry, full red"),
            (
                843,
                "light cherry, light cherry red, bright cherry, light red, scaling heat",
            ),
            (899, "orange, salmon, free scaling heat"),
            (941, "light orange, light salmon"),
            (996, "yellow"),
            (1079, "light yellow"),
            (1204, "white, white heat"),
        ),
    ),
    _table(
        "Howe",
        "H. M. Howe, Engineering and Mining Journal, 20 January 1900 (from memory)",
        (
            (470, "lowest red visible in the dark"),
            (475, "lowest red visible in daylight"),
            (587.5, "dull red"),  # 550 to 625
            (700, "full cherry, cherry, cherry red"),
            (850, "light red"),
            (975, "full yellow, yellow"),  # 950 to 1000
            (1050, "light yellow"),
            (1150, "white"),
        ),
    ),
    _table(
        "Machinery's Handbook",
        "Machinery's Handbook, 12th edition, from orange-yellow to brilliant white from memory, the rest as "
        "quoted by others (confirmed second-hand)",
        (
            (400, "red visible in the dark"),
            (474, "red visible in twilight"),
            (524, "red visible in daylight"),
            (581, "red visible in sunlight"),
            (700, "dark red"),
            (800, "dull cherry, dull cherry red"),
            (900, "cherry, cherry red"),
            (1000, "bright cherry, bright cherry red"),
            (1100, "orange-red"),
            (1200, "orange-yellow"),
            (1300, "yellow-white"),
            (1400, "white welding heat, white"),
            (1500, "brilliant white"),
            (1600, "dazzling white, bluish white"),
        ),
    ),
    _table(
        "Dooley",
        "W. H. Dooley, Applied Science for Metal Workers, §458, published in °F (confirmed)",
        (
            (514, "first red"),
            (699, "dull red"),
            (799, "dark cherry, dark cherry red"),
            (902, "cherry, cherry red"),
            (1021, "bright red"),
            (1099, "dull orange"),
            (1199, "bright orange"),
            (1299, "white"),
            (1399, "bright white"),
            (1549, "dazzling white"),  # 2730 to 2910 °F
        ),
    ),
    _table(
        "Stirling",
        "A Book of Steam for Engineers, Stirling, 1905, p. 50 (confirmed second-hand)",
        (
            (525, "red just visible"),
            (699, "dull red"),
            (800, "dull cherry, dull cherry red"),
            (900, "full cherry, full cherry red, cherry, cherry red"),
            (1000, "clear cherry, clear cherry red"),
            (1100, "deep orange"),
            (1200, "clear orange"),
            (1300, "white heat, white"),
            (1400, "bright white"),
            (1500, "dazzling white"),
        ),
    ),
)
HEAT_COLOURS: Final = ColourTables("heat colour", _TABLES)
