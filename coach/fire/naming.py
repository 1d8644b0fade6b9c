"""How a colour of a published table is found, by its word or by its temperature."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from typing import Final, Generic, NamedTuple, Protocol, TypeVar

NO_COLOUR: Final = "no colour yet"


class Colour(Protocol):
    """What every table of colours can be searched by."""

    @property
    def name(self) -> str:
        """The table's first word for it."""

    @property
    def aliases(self) -> tuple[str, ...]:
        """Its other words."""

    @property
    def temperature_c(self) -> float:
        """The temperature it stands for, in °C."""


ColourT = TypeVar("ColourT", bound=Colour)


class InTable(NamedTuple, Generic[ColourT]):
    """What one table calls a temperature."""

    table: str
    name: str  # the colour's, or in words that the table has none
    colour: ColourT | None


class Meaning(NamedTuple, Generic[ColourT]):
    """The colour that a word stands for in one table."""

    table: str
    colour: ColourT


def fold(word: str) -> str:
    """The word without regard to case, blanks and hyphens.

    >>> fold("  Light-ORANGE ")
    'light orange'
    """
    return re.sub(r"[\s_-]+", " ", word.casefold()).strip()


def by_word(colours: Iterable[ColourT]) -> dict[str, ColourT]:
    """Each colour under its folded name and under each folded alias."""
    return {fold(word): colour for colour in colours for word in (colour.name, *colour.aliases)}


def nearest(colours: Iterable[ColourT], temperature_c: float) -> ColourT:
    """The colour nearest to a temperature in °C; of two equally near, the first, which is the cooler."""
    return min(colours, key=lambda colour: abs(colour.temperature_c - temperature_c))


def meanings_in(word: str, tables: Mapping[str, Iterable[ColourT]]) -> tuple[Meaning[ColourT], ...]:
    """What a word stands for in each of the tables, given by their names, that has the word."""
    known = {name: by_word(colours) for name, colours in tables.items()}
    return tuple(Meaning(name, words[fold(word)]) for name, words in known.items() if fold(word) in words)
