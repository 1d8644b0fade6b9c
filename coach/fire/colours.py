"""What the colour of glowing steel says about its temperature.

Colour words are subjective: they depend on the light of the shop and on the eye, and the published tables
differ by as much as 150 °C on the word cherry. So a colour is told with its temperature and its table, and
it never replaces a magnet or a pyrometer.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final

from coach.fire.naming import (
    NO_COLOUR,
    InTable,
    Meaning,
    by_word,
    fold,
    meanings_in,
    nearest,
)
from coach.quantities.errors import not_known
from coach.quantities.refusal import OutOfRange

#: No colour word is trusted better than plus or minus this, in °C. Shop judgement.
COLOUR_DOUBT_C: Final = 40.0
#: A pyrometer's figure is better than a colour, in °C (common practice, no source).
FIGURE_DOUBT_C: Final = 15.0

DEFAULT_TABLE: Final = "White and Taylor"


@dataclass(frozen=True, slots=True)
class HeatColour:
    """One colour of glowing steel."""

    name: str
    aliases: tuple[str, ...]
    temperature_c: float

    @property
    def temperature_f(self) -> float:
        """The same temperature in °F, not rounded."""
        return self.temperature_c * 1.8 + 32.0


@dataclass(frozen=True, slots=True)
class ColourTable:
    """A published table of heat colours, coolest first; the middle stands for a published range."""

    name: str
    source: str  # with how far it is confirmed, in brackets at its end
    colours: tuple[HeatColour, ...]


def colour_table(name: str = DEFAULT_TABLE) -> ColourTable:
    """The table of this name; raises NotKnown."""
    for table in _TABLES:
        if fold(table.name) == fold(name):
            return table
    raise not_known("colour table", name, {fold(table.name): table.name for table in _TABLES})


def heat_colours(table: str = DEFAULT_TABLE) -> tuple[HeatColour, ...]:
    """The colours of a table, coolest first; raises NotKnown when there is no such table."""
    return colour_table(table).colours


def colour_temperature_c(name: str, table: str = DEFAULT_TABLE) -> float:
    """The temperature in °C that a colour's name or alias stands for, good to COLOUR_DOUBT_C at best.

    Raises NotKnown, which gives the nearest word.

    >>> colour_temperature_c("Light-Orange")
    941.0
    """
    colours = heat_colours(table)
    known = by_word(colours)
    if fold(name) not in known:
        raise not_known("heat colour", name, {word: word for word in known}, [one.name for one in colours])
    return known[fold(name)].temperature_c


def colour_name(temperature_c: float, table: str = DEFAULT_TABLE) -> str:
    """The name of the colour nearest to a temperature in °C, or "no colour yet" below the first.

    Of two colours equally near, the cooler. Raises NotKnown when there is no such table.

    >>> colour_name(900)
    'orange'
    """
    return _near(colour_table(table), temperature_c).name


def names_near(temperature_c: float) -> tuple[InTable[HeatColour], ...]:
    """What each table calls a temperature in °C, the default table first.

    Raises OutOfRange for a temperature that is not a finite number.

    >>> [(row.table, row.name) for row in names_near(900)][:3]
    [('White and Taylor', 'orange'), ('Howe', 'light red'), ("Machinery's Handbook", 'cherry')]
    """
    if not math.isfinite(temperature_c):
        raise OutOfRange(f"A temperature in °C was expected, not {temperature_c}.")
    return tuple(_near(table, temperature_c) for table in _TABLES)


def meanings(word: str) -> tuple[Meaning[HeatColour], ...]:
    """The colour that a word stands for in each table that has the word, the default table first.

    Raises NotKnown, which gives the nearest word of any table, when none has it.

    >>> [(table, colour.temperature_c) for table, colour in meanings("light yellow")]
    [('White and Taylor', 1079.0), ('Howe', 1050.0)]
    """
    found = meanings_in(word, {table.name: table.colours for table in _TABLES})
    if not found:
        words = by_word(colour for table in _TABLES for colour in table.colours)
        names = [colour.name for colour in heat_colours()]
        raise not_known("heat colour", word, {one: one for one in words}, names)
    return found


def _near(table: ColourTable, temperature_c: float) -> InTable[HeatColour]:
    # Written so that a temperature which is not a number has no colour either.
    if not temperature_c >= table.colours[0].temperature_c:
        return InTable(table.name, NO_COLOUR, None)
    colour = nearest(table.colours, temperature_c)
    return InTable(table.name, colour.name, colour)


def _table(name: str, source: str, rows: Iterable[tuple[float, str]]) -> ColourTable:
    colours = []
    for temperature_c, words in rows:
        first, *others = words.split(", ")
        colours.append(HeatColour(first, tuple(others), float(temperature_c)))
    return ColourTable(name, source, tuple(colours))


_TABLES: Final = (
    _table(
        DEFAULT_TABLE,
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
