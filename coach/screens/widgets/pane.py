"""A part of a screen that words its lines anew for each size that it is given, and scrolls by itself."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeAlias

from textual.content import Content
from textual.widget import Widget

from coach.screens.wording import Ink, one_line, said

#: Lines for a place so many cells wide and so many rows high; more than those rows are scrolled.
Lines: TypeAlias = Callable[[int, int], list[Content]]


#: The least of a heading's line that stands between its two words.
_LEAST_RULE = 3


class Pane(Widget, can_focus=False):
    """Lines of text; page up and page down move what is too long, and the last row says so."""

    def __init__(self, *, id: str) -> None:
        super().__init__(id=id)
        self._lines: Lines = lambda width, rows: []
        self._from = 0

    def show(self, lines: Lines) -> None:
        """Take what words the lines."""
        self._lines = lines
        self.refresh()

    def to_the_top(self) -> None:
        """Begin at the first line again."""
        self._from = 0
        self.refresh()

    def turn(self, by: int) -> None:
        """Go on by so many screenfuls."""
        width, rows = self.size
        beyond = max(len(self._lines(width, rows)) - rows, 0)
        self._from = min(max(self._from + by * max(rows - 2, 1), 0), beyond)
        self.refresh()

    def render(self) -> Content:
        """The lines that there is room for."""
        width, rows = self.size
        lines = self._lines(width, rows)
        first = min(self._from, max(len(lines) - rows, 0))
        shown = lines[first : first + rows]
        if len(lines) > first + rows and rows > 1:
            more = len(lines) - first - rows + 1
            shown[-1] = one_line(f"… {more} more: page down", Ink.QUIET, indent=1)
        return Content("\n").join([line.truncate(max(width, 1), ellipsis=True) for line in shown])


def rule(title: str, width: int, right: str = "") -> Content:
    """A heading in a line across, with a word at its right end where there is room for it.

    >>> rule("Do", 30, "then 4 Curl the tip").plain
    '─ Do ─── then 4 Curl the tip ─'
    """
    left = said(f"─ {title} " if title else "─", Ink.LABEL)
    ending = said(f" {right} ─" if right else "", Ink.LABEL)
    between = width - left.cell_length - ending.cell_length
    if between < _LEAST_RULE:
        ending, between = Content(""), max(width - left.cell_length, 0)
    return Content.assemble(left, ("─" * between, Ink.QUIET), ending).truncate(max(width, 1))


def side_by_side(parts: list[tuple[list[Content], int]]) -> list[Content]:
    """Columns of lines beside one another, each so many cells wide, with one between."""
    rows = max((len(lines) for lines, _ in parts), default=0)
    told = []
    for row in range(rows):
        cells = [
            (lines[row] if row < len(lines) else Content("")).truncate(width, ellipsis=True, pad=True)
            for lines, width in parts
        ]
        told.append(Content(" ").join(cells))
    return told
