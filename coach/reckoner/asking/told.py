"""What a question tells of its answer, before anyone has chosen units or set it on a page."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple, TypeAlias

from coach.fire.srgb import Rgb
from coach.quantities.words import Part, Words


class Swatched(NamedTuple):
    """A line with a patch of colour beside it."""

    words: Words | str
    rgb: Rgb


class Caution(NamedTuple):
    """What can hurt; nothing is told where it says nothing."""

    words: Words | str


class Rows(NamedTuple):
    """A table, with a patch of colour beside each row where there are as many."""

    rows: tuple[tuple[Part, ...], ...]
    swatches: tuple[Rgb, ...] = ()


class Under(NamedTuple):
    """What stands under a heading; an empty heading only sets it apart."""

    heading: Words | str
    parts: tuple[Words | str | Swatched | Rows, ...]


class Verbatim(NamedTuple):
    """A text that is told as it stands, line by line."""

    text: str


Told: TypeAlias = "Words | str | Swatched | Caution | Rows | Under | Verbatim"


def rows(cells: Iterable[Iterable[Part]]) -> Rows:
    """A table of these cells."""
    return Rows(tuple(tuple(row) for row in cells))
