"""A view drawn in braille cells: the piece as it is, what is wanted of it laid over, to one scale."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Final, NamedTuple

from coach.drawing.cells import DOTS_ACROSS, DOTS_DOWN, Ink, Line, Sheet, pattern
from coach.drawing.dots import Columns, Grid, edge, filled
from coach.drawing.figures import write_across, write_bar, write_height, write_lengths, write_names
from coach.drawing.solids import DrawingError
from coach.drawing.views import View
from coach.telling.writing import Shown

LEAST_COLUMNS: Final = 8
LEAST_ROWS: Final = 3
#: From so many rows on, one goes to the zones' names and from so many one to their lengths.
_ROWS_FOR_NAMES: Final = 4
_ROWS_FOR_LENGTHS: Final = 5
#: A mark nearer than this to another or to an end, in dots, would hide more than it tells.
_MARKS_APART: Final = 4
_METRIC: Final = Shown()
#: What is this near to a whole number of dots counts as one.
_NEAR: Final = 1e-9


class _Picture(NamedTuple):
    """Dots that are lit, and which of them are there for what."""

    lit: Columns
    solid: Columns
    steel: Columns
    outline: Columns
    hole: Columns
    mark: Columns


def picture(
    now: View | None,
    wanted: View | None,
    columns: int,
    rows: int,
    *,
    shown: Shown | None = _METRIC,
    mm_per_dot: float | None = None,
) -> tuple[Line, ...]:
    """The piece as last measured, filled, and over it the outline of what is wanted.

    What can be told without colour: metal is full, steel a checker, a hole empty, a hole seen through the
    metal dashed, what is wanted a line, bright outside the metal and dark inside. Both start at the left.

    Args:
        now: the piece as it is; None draws only what is wanted.
        wanted: what it is to become; None draws only what is there.
        columns: the most cells a line may take.
        rows: the most lines.
        shown: how sizes are written where there is room, and names and a scale bar with them; None writes
            nothing.
        mm_per_dot: the scale, for two pictures that are to agree; None takes the largest that fits. One
            that is too large for the room gives way to that.

    Returns:
        At most `rows` lines; none below 8 by 3 cells, or where there is nothing to draw.

    Raises:
        DrawingError: the scale given is no number above zero.
    """
    if mm_per_dot is not None and not 0.0 < mm_per_dot < math.inf:
        raise DrawingError(f"A scale above zero was expected for the picture, not {mm_per_dot} mm to a dot.")
    views = [view for view in (now, wanted) if view is not None]
    if not views or columns < LEAST_COLUMNS or rows < LEAST_ROWS:
        return ()
    above, below = _text_rows(rows) if shown is not None else (0, 0)
    fitting = scale_mm_per_dot(views, columns, rows, figures=shown is not None)
    scale = fitting if mm_per_dot is None else max(mm_per_dot, fitting)
    grid = _grid(views, scale)
    body = grid.height // DOTS_DOWN
    main = views[0]
    if shown is None:
        sheet = Sheet(columns, body)
        _draw(sheet, 0, _dots(now, wanted, grid), grid)
        return sheet.lines()
    spare = rows - above - body - below
    with_bar = below == 1 and spare >= 1
    with_across = above == 1 and spare >= 2
    sheet = Sheet(columns, above + with_across + body + below + with_bar)
    first = above + with_across
    _draw(sheet, first, _dots(now, wanted, grid), grid)
    if above:
        write_names(sheet, 0, main, grid)
    if with_across:
        write_across(sheet, 1, main, grid, shown)
    if below:
        write_lengths(sheet, first + body, main, grid, shown)
        write_bar(sheet, sheet.rows - 1, grid, shown)
    if not with_across:
        write_height(sheet, first + grid.axis_row // DOTS_DOWN, main, grid, shown)
    return sheet.lines()


def scale_mm_per_dot(views: Sequence[View], columns: int, rows: int, *, figures: bool = True) -> float:
    """The largest scale, in mm to a dot, at which every one of these views fits the room, each by itself."""
    above, below = _text_rows(rows) if figures else (0, 0)
    across = DOTS_ACROSS * columns
    down = DOTS_DOWN * (rows - above - below) - 1  # an odd number of rows lies even about the axis
    return max(max(view.length_mm / across, view.height_mm / down) for view in views)


def _text_rows(rows: int) -> tuple[int, int]:
    return int(rows >= _ROWS_FOR_NAMES), int(rows >= _ROWS_FOR_LENGTHS)


def _grid(views: Sequence[View], mm_per_dot: float) -> Grid:
    length = max(view.length_mm for view in views)
    half = math.floor(max(view.height_mm for view in views) / 2 / mm_per_dot + _NEAR)
    rows = 2 * half + 1
    height = -(-rows // DOTS_DOWN) * DOTS_DOWN
    width = DOTS_ACROSS * max(math.ceil(length / mm_per_dot / DOTS_ACROSS - _NEAR), 1)
    return Grid(width, height, half + (height - rows) // 2, mm_per_dot, (width * mm_per_dot - length) / 2)


def _metal(view: View, grid: Grid) -> tuple[Columns, Columns]:
    """The dots of a view's metal, and those of the holes that can be seen through."""
    metal = filled([outline.points for outline in view.outlines], grid)
    through = [0] * grid.width
    for zone in dict.fromkeys(hole.zone for hole in view.holes if not hole.hidden):
        mouths = [
            filled([hole.points], grid, always=False)
            for hole in view.holes
            if hole.zone == zone and not hole.hidden
        ]
        # One sees through where no mouth is in the way.
        for column, dots in enumerate(zip(*mouths, strict=True)):
            seen = dots[0]
            for other in dots[1:]:
                seen &= other
            through[column] |= seen
    # A wall thinner than a dot is still there.
    through = [gone & ~border for gone, border in zip(through, edge(metal), strict=True)]
    return [here & ~gone for here, gone in zip(metal, through, strict=True)], through


def _dots(now: View | None, wanted: View | None, grid: Grid) -> _Picture:
    none = [0] * grid.width
    metal, hole, steel, dashed = none, none, none, none
    if now is not None:
        metal, hole = _metal(now, grid)
        steel = _both(filled(now.steel, grid), metal)
        # The far mouth of a hole that is seen through tells nothing at this size.
        open_zones = {one.zone for one in now.holes if not one.hidden}
        behind = [one.points for one in now.holes if one.hidden and one.zone not in open_zones]
        dashed = _both(edge(filled(behind, grid, always=False)), _dashes(grid))
    line = edge(_metal(wanted, grid)[0]) if wanted is not None else none
    # Where the metal already ends where it is wanted to, its own edge says so.
    line = [drawn & ~ends for drawn, ends in zip(line, edge(metal), strict=True)]
    view = now or wanted
    marked = _mark_dots(view, grid) if view is not None else none
    mark = [dots & ~gone & ~drawn for dots, gone, drawn in zip(marked, hole, line, strict=True)]
    lit = []
    checker = _checker(grid)
    for column in range(grid.width):
        full = metal[column] & ~steel[column] | steel[column] & checker[column]
        # Marks and wanted edges are dark on metal and bright beside it.
        signs = mark[column] | line[column]
        lit.append(full & ~dashed[column] & ~signs | signs & ~metal[column])
    empty = [one | other for one, other in zip(hole, dashed, strict=True)]
    return _Picture(lit, metal, steel, line, empty, mark)


def _both(ones: Columns, others: Columns) -> Columns:
    return [one & other for one, other in zip(ones, others, strict=True)]


def _checker(grid: Grid) -> Columns:
    """Every second dot, so placed that those on the axis belong to even columns."""
    pair = [sum(1 << row for row in range(first, grid.height, 2)) for first in (0, 1)]
    return [pair[(column + grid.axis_row) % 2] for column in range(grid.width)]


def _dashes(grid: Grid) -> Columns:
    """Dashes two dots long, whichever way an edge runs."""
    four = [sum(1 << row for row in range(grid.height) if (first + row) % 4 < 2) for first in range(4)]
    return [four[column % 4] for column in range(grid.width)]


def _mark_dots(view: View, grid: Grid) -> Columns:
    """A dotted upright where a zone begins, but for marks too close to be told apart."""
    columns = [0] * grid.width
    dotted = sum(1 << row for row in range(grid.height) if (row - grid.axis_row) % 2)
    last = 0
    for mark in view.marks:
        column = grid.column_of(mark.x_mm)
        if column - last >= _MARKS_APART and grid.width - column >= _MARKS_APART:
            columns[column] = dotted
            last = column
    return columns


def _draw(sheet: Sheet, first_row: int, dots: _Picture, grid: Grid) -> None:
    inks: tuple[tuple[Ink, Columns], ...] = (
        (Ink.OUTLINE, dots.outline),
        (Ink.MARK, dots.mark),
        (Ink.STEEL, dots.steel),
        (Ink.SOLID, dots.solid),
        (Ink.HOLE, dots.hole),
    )
    for cell in range(grid.width // DOTS_ACROSS):
        at = DOTS_ACROSS * cell
        # All the dots of a cell's two columns, whichever side they are on, by what they are there for.
        told = [(name, either) for name, columns in inks if (either := columns[at] | columns[at + 1])]
        left, right = dots.lit[at], dots.lit[at + 1]
        for row in range(grid.height // DOTS_DOWN):
            down = DOTS_DOWN * row
            ink = next((name for name, either in told if either >> down & 0b1111), Ink.NONE)
            sheet.put(first_row + row, cell, pattern(left >> down & 0b1111, right >> down & 0b1111), ink)
