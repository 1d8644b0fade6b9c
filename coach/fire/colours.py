"""What the colour of glowing steel says about its temperature, and how a published colour is found.

Colour words are subjective: they depend on the light of the shop and on the eye, and the published tables
differ by as much as 150 °C on the word cherry. So a colour is told with its temperature and its table, and
it never replaces a magnet or a pyrometer.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Callable, Sequence
from functools import cache
from math import inf, isfinite
from pathlib import Path
from typing import Final, NamedTuple

from coach.quantities.errors import not_known
from coach.quantities.figure import COVERAGE
from coach.quantities.refusal import OutOfRange

#: No colour word is trusted better than plus or minus this, in °C. Shop judgement.
COLOUR_DOUBT_C: Final = 40.0
#: A pyrometer's figure is better than a colour, in °C (common practice, no source).
FIGURE_DOUBT_C: Final = 15.0

NO_COLOUR: Final = "no colour yet"
PAST_COLOURS: Final = "past the colours"


class NamedColour(NamedTuple):
    """One colour of a published table."""

    name: str  # the table's first word for it
    aliases: tuple[str, ...]  # its other words
    temperature_c: float  # that it stands for
    uses: tuple[str, ...] = ()  # the tools that the table tempers to it


class ColourTable(NamedTuple):
    """A published table of colours, coolest first; the middle stands for a published range."""

    name: str
    source: str  # with how far it is confirmed, in brackets at its end
    colours: tuple[NamedColour, ...]


class NamedInTable(NamedTuple):
    """What one table calls a temperature, or the colour that a word stands for in it."""

    table: ColourTable
    name: str  # the colour's, or in words that the table has none
    colour: NamedColour | None


class ColourTables(NamedTuple):
    """Every published table of one kind of colour, the default first."""

    kind: str  # such as `heat colour`
    tables: tuple[ColourTable, ...]
    ends_above_c: float = inf  # so far above the last colour of a table there is none any more

    def table(self, name: str | None = None) -> ColourTable:
        """The table of this name, or the default one; raises NotKnown."""
        if name is None:
            return self.tables[0]
        known = {fold(table.name): table for table in self.tables}
        if fold(name) in known:
            return known[fold(name)]
        raise not_known(f"table of {self.kind}s", name, {word: one.name for word, one in known.items()})

    def temperature_c(self, word: str, table: str | None = None) -> float:
        """The temperature in °C that a colour's name or alias stands for; raises NotKnown.

        >>> HEAT_COLOURS.temperature_c("Light-Orange")
        941.0
        """
        colours = self.table(table).colours
        known = _by_word(colours)
        if fold(word) in known:
            return known[fold(word)].temperature_c
        raise not_known(self.kind, word, {one: one for one in known}, [one.name for one in colours])

    def apart_c(self, word: str) -> float:
        """How far the tables that have a word lie from the default's temperature for it, °C; raises NotKnown.

        >>> HEAT_COLOURS.apart_c("cherry"), HEAT_COLOURS.apart_c("light orange")
        (156.0, 0.0)
        """
        at_c = self.temperature_c(word)
        found = (one.colour for one in self.meanings(word) if one.colour is not None)
        return max(abs(one.temperature_c - at_c) for one in found)

    def name_of(self, temperature_c: float, table: str | None = None) -> str:
        """The name of the colour nearest to a temperature in °C; of two equally near, the cooler's.

        NO_COLOUR below the first, PAST_COLOURS too far above the last. Raises NotKnown for a table.

        >>> HEAT_COLOURS.name_of(900)
        'orange'
        """
        return self._near(self.table(table), temperature_c).name

    def near(self, temperature_c: float) -> tuple[NamedInTable, ...]:
        """What each table calls a temperature in °C; raises OutOfRange for one that is not finite."""
        if not isfinite(temperature_c):
            raise OutOfRange(f"A temperature in °C was expected, not {temperature_c}.")
        return tuple(self._near(table, temperature_c) for table in self.tables)

    def meanings(self, word: str) -> tuple[NamedInTable, ...]:
        """The colour that a word stands for in each table that has the word.

        Raises NotKnown, which gives the nearest word of any table, when none has it.
        """
        found = self.those_called(word)
        if not found:
            every = {one: one for table in self.tables for one in _by_word(table.colours)}
            raise not_known(self.kind, word, every, [one.name for one in self.tables[0].colours])
        return tuple(NamedInTable(table, colour.name, colour) for table, colour in found)

    def those_called(self, word: str) -> list[tuple[ColourTable, NamedColour]]:
        """The colours that a word stands for, each with its table; none where no table has the word."""
        folded = fold(word)
        known = [(table, _by_word(table.colours)) for table in self.tables]
        return [(table, words[folded]) for table, words in known if folded in words]

    def _near(self, table: ColourTable, temperature_c: float) -> NamedInTable:
        # Written so that a temperature which is not a number has no colour either.
        if not temperature_c >= table.colours[0].temperature_c:
            return NamedInTable(table, NO_COLOUR, None)
        if temperature_c > table.colours[-1].temperature_c + self.ends_above_c:
            return NamedInTable(table, PAST_COLOURS, None)
        colour = min(table.colours, key=lambda one: abs(one.temperature_c - temperature_c))
        return NamedInTable(table, colour.name, colour)


def tables_in(name: str, celsius: Callable[[list[float]], float]) -> tuple[ColourTable, ...]:
    """The published tables of a file beside this one; `celsius` makes one temperature of its figures."""
    with Path(__file__).with_name(name).open("rb") as file:
        tables = tomllib.load(file)["tables"]
    return tuple(
        ColourTable(
            one["name"], one["source"], tuple(_colour(*row, celsius=celsius) for row in one["colours"])
        )
        for one in tables
    )


def _colour(
    figures: float | list[float],
    words: str,
    uses: Sequence[str] = (),
    *,
    celsius: Callable[[list[float]], float],
) -> NamedColour:
    first, *others = words.split(", ")
    told = figures if isinstance(figures, list) else [figures]
    return NamedColour(first, tuple(others), celsius(told), tuple(uses))


def fold(word: str) -> str:
    """The word without regard to case, blanks and hyphens.

    >>> fold("  Light-ORANGE ")
    'light orange'
    """
    return re.sub(r"[\s_-]+", " ", word.casefold()).strip()


@cache
def _by_word(colours: tuple[NamedColour, ...]) -> dict[str, NamedColour]:
    return {fold(word): colour for colour in colours for word in (colour.name, *colour.aliases)}


#: The published tables, each with its source (heat-colours.toml); a range is told by its middle (computed).
HEAT_COLOURS: Final = ColourTables(
    "heat colour", tables_in("heat-colours.toml", lambda figures: float(figures[0]))
)


def word_doubt_c(word: str) -> float:
    """The standard uncertainty of a heat colour's word, °C: the eye's, or the tables'; raises NotKnown.

    >>> word_doubt_c("light orange"), round(word_doubt_c("cherry"))
    (40.0, 95)
    """
    return max(COLOUR_DOUBT_C, HEAT_COLOURS.apart_c(word) / COVERAGE)
