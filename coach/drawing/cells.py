"""Lines of terminal cells: spans of text, each of one ink, that are never wider than asked for."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable, Mapping, Sequence
from enum import StrEnum
from itertools import groupby
from typing import Final, NamedTuple


class Ink(StrEnum):
    """What a cell of a picture is there for."""

    SOLID = "solid"
    OUTLINE = "outline"
    STEEL = "steel"
    MARK = "mark"
    HOLE = "hole"
    FIGURE = "figure"
    NONE = ""


class Span(NamedTuple):
    """A run of text of one ink."""

    text: str
    ink: Ink


Line = tuple[Span, ...]

#: A braille cell is two dots wide and four high; a terminal's cell is about twice as high as wide, so that
#: its dots are as far apart across as down.
DOTS_ACROSS: Final = 2
DOTS_DOWN: Final = 4

_BLANK_PATTERN: Final = 0x2800
#: Unicode's braille patterns: the value of each dot by its column, from the top.
_DOT_VALUES: Final = ((0x01, 0x02, 0x04, 0x40), (0x08, 0x10, 0x20, 0x80))


def _value(dots: int, values: tuple[int, ...]) -> int:
    return sum(one for down, one in enumerate(values) if dots >> down & 1)


_PATTERNS: Final = tuple(
    tuple(
        chr(_BLANK_PATTERN + _value(left, _DOT_VALUES[0]) + _value(right, _DOT_VALUES[1]))
        if left or right
        else " "
        for right in range(16)
    )
    for left in range(16)
)


def cell_width(text: str) -> int:
    """How many cells a text takes in a terminal.

    >>> cell_width("blade"), cell_width("刃")
    (5, 2)
    """
    return sum(_width(letter) for letter in text)


def pattern(left: int, right: int) -> str:
    """The braille letter of two columns of four dots, each a number whose lowest bit is the top dot.

    A cell without a dot is a blank, which every font has.

    >>> pattern(0b1111, 0b0001)
    '⡏'
    """
    return _PATTERNS[left & 0b1111][right & 0b1111]


class Sheet:
    """Cells that are written on; what does not fit is refused, so that nothing ever runs over the edge."""

    __slots__ = ("_inks", "_texts", "columns", "rows")

    def __init__(self, columns: int, rows: int) -> None:
        self.columns = columns
        self.rows = rows
        self._texts = [[" "] * columns for _ in range(rows)]
        self._inks: list[list[Ink]] = [[Ink.NONE] * columns for _ in range(rows)]

    def put(self, row: int, column: int, letter: str, ink: Ink) -> None:
        """Write one letter of one cell's width."""
        self._texts[row][column] = letter
        self._inks[row][column] = ink

    def draw(self, row: int, column: int, lit: Sequence[int], inks: Mapping[Ink, Sequence[int]]) -> None:
        """Draw the dots that are lit from a cell on, each column of them one number as `pattern` takes it.

        A cell takes the first of the inks that any dot of it is there for.
        """
        for cell, at in enumerate(range(0, len(lit), DOTS_ACROSS), column):
            # All the dots of a cell's two columns, whichever side they are on, by what they are there for.
            told = [(ink, either) for ink, dots in inks.items() if (either := dots[at] | dots[at + 1])]
            for down in range(self.rows - row):
                ink = next((ink for ink, dots in told if dots >> DOTS_DOWN * down & 0b1111), Ink.NONE)
                left, right = (dots >> DOTS_DOWN * down & 0b1111 for dots in lit[at : at + DOTS_ACROSS])
                if ink or left | right:
                    self.put(row + down, cell, pattern(left, right), ink)

    def has_room(self, row: int, column: int, width: int, *, beside: int = 1) -> bool:
        """Whether these cells are on the sheet and blank, and as many `beside` them on either side."""
        if not 0 <= row < self.rows or column < 0 or column + width > self.columns:
            return False
        texts, inks = self._texts[row], self._inks[row]
        around = range(max(column - beside, 0), min(column + width + beside, self.columns))
        return all(texts[at] == " " and inks[at] is not Ink.HOLE for at in around)

    def write(self, row: int, column: int, text: str, ink: Ink) -> bool:
        """Write a text where there is room for it, without what is no letter; tells whether there was."""
        text = "".join(letter for letter in text if letter.isprintable())
        if not text or not self.has_room(row, column, cell_width(text)):
            return False
        for letter in text:
            width = _width(letter)
            if width == 0:  # an accent goes with the letter before it
                self._texts[row][max(column - 1, 0)] += letter
                continue
            self.put(row, column, letter, ink)
            for beside in range(column + 1, column + width):
                self.put(row, beside, "", ink)
            column += width
        return True

    def write_about(self, row: int, middle: float, text: str, ink: Ink, within: Sequence[int]) -> bool:
        """Write a text about a place, all of it between two columns (the last excluded), if there is room."""
        width = cell_width(text)
        first, beyond = within
        column = min(max(round(middle - width / 2), first), beyond - width)
        return column >= first and self.write(row, column, text, ink)

    def lines(self) -> tuple[Line, ...]:
        """The rows as spans, without idle blanks at their ends."""
        return tuple(_spans(texts, inks) for texts, inks in zip(self._texts, self._inks, strict=True))


def _spans(texts: Sequence[str], inks: Sequence[Ink]) -> Line:
    used = len(texts)
    while used and texts[used - 1] == " " and inks[used - 1] is Ink.NONE:
        used -= 1
    cells = list(zip(texts[:used], inks[:used], strict=True))
    return tuple(
        Span("".join(text for text, _ in run), ink) for ink, run in groupby(cells, key=lambda cell: cell[1])
    )


def as_text(lines: Iterable[Line]) -> str:
    """Lines of spans as plain text, for a pipe or a printer."""
    return "\n".join("".join(span.text for span in line).rstrip() for line in lines)


def _width(letter: str) -> int:
    if unicodedata.combining(letter) or unicodedata.category(letter) in ("Cc", "Cf", "Me", "Mn"):
        return 0
    return 2 if unicodedata.east_asian_width(letter) in "WF" else 1
