"""Tells once what is found of each of several pieces that are made alike from one line of a recipe."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Protocol, TypeVar

from coach.quantities.words import Words


class Placed(Protocol):
    """Something that is told of a zone, at a place in the recipe's file."""

    @property
    def line(self) -> int:
        """Of the file; 0 where that is not known."""

    @property
    def column(self) -> int:
        """The same."""

    @property
    def zone(self) -> str:
        """The zone; empty where it is the whole step."""

    @property
    def sentence(self) -> Words:
        """What is told."""


_Told = TypeVar("_Told", bound=Placed)


def once(told: Iterable[_Told]) -> tuple[_Told, ...]:
    """The first of those that stand in one place and say the same but for the piece and its steps."""
    found: dict[object, _Told] = {}
    for one in told:
        said = (one.line, one.column, *_but_for(one.sentence, one.zone))
        found.setdefault(said if one.line else id(one), one)
    return tuple(found.values())


def _but_for(words: Words, zone: str) -> Iterator[object]:
    yield words.template.replace(zone, "") if zone else words.template
    for part in words.parts:
        if isinstance(part, Words):
            yield tuple(_but_for(part, zone))
        elif isinstance(part, str):
            yield part.replace(zone, "") if zone else part
        elif not isinstance(part, int):
            yield part
