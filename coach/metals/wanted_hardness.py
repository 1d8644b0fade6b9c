"""How hard each part of a struck or cutting tool should be.

Each part has a proposal of the coach's own, which may be departed from, and what standards publish for it;
`wanted_hardness.toml` has the figures with their sources.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any, Final, NamedTuple

from coach.quantities.errors import not_known
from coach.quantities.figure import Figure, Kind

#: How much of what was typed is told back (our choice).
_LONGEST_NAME: Final = 80


class PublishedHardness(NamedTuple):
    """What a standard asks for."""

    low: Figure | None  # the least; None where only the most is told
    high: Figure  # the most
    source: str  # the standard, and how far it is confirmed


class PartOfATool(NamedTuple):
    """How hard the part of a tool should be."""

    part: str
    low: Figure | None  # the least; None where it need not be hardened
    high: Figure  # the most
    source: str  # where they are from and how far that is confirmed
    note: str  # what else to know
    published: tuple[PublishedHardness, ...]


def wanted(part: str) -> PartOfATool:
    """The hardness for a part of a tool, whatever the case and blanks of its name.

    Raises NotKnown, which names the nearest.

    >>> wanted("Hammer  face").high.value
    56.0
    """
    asked = " ".join(part[:_LONGEST_NAME].casefold().split())
    known = {**_by_part(), **_by_other_name()}
    if asked in known:
        return known[asked]
    raise not_known("hardness for a part", part, {one: one for one in _by_part()})


def struck_part(piece: str, zone: str) -> PartOfATool | None:
    """The part that a hammer strikes, where a zone of a piece is called so; None of any other.

    A zone may be named outright, or by what it is of its piece: the head of a cold chisel.

    >>> struck_part("bar", "Struck end").part, struck_part("cold chisel", "head").part
    ('struck end', 'struck end')
    >>> struck_part("hammer", "head") is None
    True
    """
    return _named(piece, zone, "struck")


def soft_part(piece: str, zone: str) -> PartOfATool | None:
    """The part that is to stay soft, where a zone of a piece is called so; None of any other.

    >>> soft_part("drawknife", "left tang").part, soft_part("hammer", "eye").high.value
    ('tang', 30.0)
    >>> soft_part("hammer", "poll") is None
    True
    """
    return _named(piece, zone, "left_soft")


def _named(piece: str, zone: str, told: str) -> PartOfATool | None:
    """The part of which the table tells something and that a zone of a piece is named as."""
    called = f" {piece} {zone}".casefold().split()
    for part, one in _file()["parts"].items():
        names = [name.split() for name in (part, *one.get("also", ()))] if one.get(told) else []
        if any(called[-len(name) :] == name for name in names):
            return _by_part()[part]
    return None


def parts() -> tuple[str, ...]:
    """The names of all the parts, cutting edges first."""
    return tuple(_by_part())


def rockwell(hrc: float, doubt: float | None = None) -> Figure:
    """A hardness in HRC."""
    return Figure(hrc, Kind.HARDNESS, doubt)


@cache
def _file() -> Mapping[str, Any]:
    import tomllib

    return tomllib.loads(Path(__file__).with_suffix(".toml").read_text(encoding="utf-8"))


@cache
def _by_other_name() -> dict[str, PartOfATool]:
    """By what smiths call the whole tool, where its edge is meant."""
    told = _file()["parts"]
    return {name: _by_part()[part] for part, one in told.items() for name in one.get("also", ())}


@cache
def _by_part() -> dict[str, PartOfATool]:
    told = _file()
    published = {name: PublishedHardness(*_figures(one)) for name, one in told["published"].items()}
    return {
        part: PartOfATool(part, *_figures(one), one["note"], tuple(published[by] for by in one["published"]))
        for part, one in told["parts"].items()
    }


def _figures(told: Mapping[str, Any]) -> tuple[Figure | None, Figure, str]:
    low = rockwell(told["low"]) if "low" in told else None
    return low, rockwell(told["high"]), told["source"]
