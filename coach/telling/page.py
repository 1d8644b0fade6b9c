"""A page: what a narrator tells, before anyone has set it on a screen, at eighty columns or on paper."""

from __future__ import annotations

from collections.abc import Iterable
from enum import Enum
from typing import NamedTuple, TypeAlias

Rgb: TypeAlias = tuple[int, int, int]


class Tone(Enum):
    """How a line is meant; a way out may colour it, but the words say it too."""

    PLAIN = "plain"
    STRONG = "strong"
    QUIET = "quiet"
    GOOD = "good"
    CARE = "care"
    BAD = "bad"


class Line(NamedTuple):
    """A paragraph of text, in the units asked for."""

    words: str
    label: str = ""  # the word in the margin that says what it is
    tone: Tone = Tone.PLAIN
    mark: str = ""  # a sign before it, such as "-" or "[x]"
    swatch: Rgb | None = None  # a patch of colour beside it
    as_it_stands: bool = False  # a text whose lines are never broken, such as a file to be saved


class Row(NamedTuple):
    """One row of a table."""

    cells: tuple[str, ...]
    tone: Tone = Tone.PLAIN
    swatch: Rgb | None = None


class Table(NamedTuple):
    """Rows in columns; every row has as many cells as there are heads, if there are heads."""

    rows: tuple[Row, ...]
    heads: tuple[str, ...] = ()
    gives: int = -1  # the column that is wrapped or cut where there is little room
    leaves: tuple[int, ...] = ()  # the columns that are left out before that, the first first
    indent: int = 0  # steps to the right


Body: TypeAlias = Line | Table


class Section(NamedTuple):
    """What stands under one heading; without a heading, or with a body that is empty, nothing heads it."""

    heading: str = ""
    body: tuple[Body, ...] = ()


class Page(NamedTuple):
    """Sections one after another."""

    sections: tuple[Section, ...] = ()


def section(heading: str, body: Iterable[Body | None]) -> Section:
    """A section; what is None, a line that says nothing and a table without rows are left out."""
    kept = tuple(
        one for one in body if one is not None and (one.rows if isinstance(one, Table) else one.words)
    )
    return Section(heading, kept)


def page(*sections: Section) -> Page:
    """A page of the sections that have something to tell."""
    return Page(tuple(one for one in sections if one.body))


def is_labelled(part: Section) -> bool:
    """Whether any line of a section has a label."""
    return any(isinstance(one, Line) and one.label for one in part.body)


def margin_of(told: Page) -> int:
    """How wide the margin is that every label of a page finds room in, so that its sections line up."""
    lines = (one for part in told.sections for one in part.body if isinstance(one, Line))
    return max((len(line.label) for line in lines), default=0)


def table(
    rows: Iterable[Iterable[str]], heads: Iterable[str] = (), *, gives: int = -1, indent: int = 0
) -> Table:
    """A table of plain rows."""
    return Table(tuple(Row(tuple(cells)) for cells in rows), tuple(heads), gives=gives, indent=indent)
