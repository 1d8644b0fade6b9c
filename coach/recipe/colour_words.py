"""Colour words beside a temperature: a misspelt one is a fault, any other way of seeing is free."""

from __future__ import annotations

from functools import cache

from coach.fire.colours import COLOUR_DOUBT_C, HEAT_COLOURS, ColourTables, fold

#: How like a known word one must be to be taken for it misspelt, and how many letters apart in length: so
#: "lihgt" is light, and "hay" a word of its own (our choice).
_LIKE, _APART = 0.75, 1


def meant_by(colour: str) -> str | None:
    """The colour that a misspelt one was meant for; None where it is spelt right or no such colour at all.

    >>> meant_by("lihgt yellow"), meant_by("light yellow"), meant_by("hay")
    ('light yellow', None, None)
    """
    written = fold(colour).split()
    if fold(colour) in _names():
        return None
    meant = [_nearest(word) for word in written]
    return " ".join(meant) if meant != written else None


@cache
def may_be_c(colour: str, doubt_c: float = COLOUR_DOUBT_C) -> tuple[float, float] | None:
    """Between which temperatures in °C the published tables have a colour; None for one of none of them.

    Of glowing steel and of the oxide film together, whichever reaches farther.
    """
    called = (one for tables in _tables() for _, one in tables.those_called(colour))
    found = [one.temperature_c for one in called]
    return (min(found) - doubt_c, max(found) + doubt_c) if found else None


def _nearest(word: str) -> str:
    known = _words()
    if word in known or not word.isalpha():
        return word
    from difflib import get_close_matches

    near = get_close_matches(word, [one for one in known if abs(len(one) - len(word)) <= _APART], 1, _LIKE)
    return near[0] if near else word


def _tables() -> tuple[ColourTables, ColourTables]:
    from coach.fire.temper_colours import TEMPER_COLOURS

    return HEAT_COLOURS, TEMPER_COLOURS


@cache
def _names() -> frozenset[str]:
    every = (colour for tables in _tables() for table in tables.tables for colour in table.colours)
    return frozenset(fold(name) for colour in every for name in (colour.name, *colour.aliases))


@cache
def _words() -> tuple[str, ...]:
    return tuple(sorted({word for name in _names() for word in name.split()}))
