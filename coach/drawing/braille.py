"""Views drawn in braille cells: the piece as it is, what is wanted of it laid over, all to one scale."""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import reduce
from itertools import zip_longest
from operator import and_
from typing import Final

from coach.drawing.cells import DOTS_ACROSS, DOTS_DOWN, Ink, Line, Sheet
from coach.drawing.dots import Dots, Grid, columns_of, edge, filled, tiled
from coach.drawing.figures import write_across, write_bar, write_height, write_lengths, write_names
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


def stacked(
    now: Sequence[View],
    wanted: Sequence[View],
    columns: int,
    rows: int,
    *,
    shown: Shown | None = _METRIC,
) -> tuple[Line, ...]:
    """The views of what is there and of what is wanted in pairs, as `picture` draws each.

    Either sequence may be empty. The rows are shared out so that the common scale is as large as it can be;
    where there are too few for all, only the first pair is drawn.

    Returns:
        At most `rows` lines; none below 8 by 3 cells, or where there is nothing to draw.
    """
    pairs = list(zip_longest(now, wanted))
    if not pairs or columns < LEAST_COLUMNS or rows < LEAST_ROWS:
        return ()
    if len(pairs) * LEAST_ROWS > rows:
        pairs = pairs[:1]
    seen = [[view for view in pair if view is not None] for pair in pairs]

    def scales(given: Sequence[int]) -> list[float]:
        return [
            scale_mm_per_dot(views, columns, lines, figures=shown is not None)
            for views, lines in zip(seen, given, strict=True)
        ]

    given = [LEAST_ROWS] * len(pairs)
    for _ in range(rows - sum(given)):
        # The view that holds the scale back takes the next row; of several alike, the one with fewest.
        found = scales(given)
        given[min(range(len(pairs)), key=lambda i: (-found[i], given[i]))] += 1
    scale = max(scales(given))
    return tuple(
        line
        for (one, other), lines in zip(pairs, given, strict=True)
        for line in picture(one, other, columns, lines, shown=shown, mm_per_dot=scale)
    )


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
    """
    views = [view for view in (now, wanted) if view is not None]
    if not views or columns < LEAST_COLUMNS or rows < LEAST_ROWS:
        return ()
    above, below = _text_rows(rows) if shown is not None else (0, 0)
    fitting = scale_mm_per_dot(views, columns, rows, figures=shown is not None)
    scale = fitting if mm_per_dot is None else max(mm_per_dot, fitting)
    grid = _grid(views, scale)
    body = grid.height // DOTS_DOWN
    main = views[0]
    spare = rows - above - body - below
    with_bar = below == 1 and spare >= 1
    with_across = above == 1 and spare >= 2
    first = above + with_across
    sheet = Sheet(columns, first + body + below + with_bar)
    lit, inks = _dots(now, wanted, grid)
    sheet.draw(first, 0, columns_of(lit, grid), {ink: columns_of(dots, grid) for ink, dots in inks.items()})
    if shown is None:
        return sheet.lines()
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


def _metal(view: View, grid: Grid) -> tuple[Dots, Dots]:
    """The dots of a view's metal, and those of the holes that can be seen through."""
    metal = filled(view.outlines, grid)
    through = 0
    for zone in dict.fromkeys(hole.zone for hole in view.holes if not hole.hidden):
        mouths = [hole for hole in view.holes if hole.zone == zone and not hole.hidden]
        # One sees through where no mouth is in the way.
        through |= reduce(and_, (filled([hole.points], grid, always=False) for hole in mouths))
    through &= ~edge(metal, grid)  # a wall thinner than a dot is still there
    return metal & ~through, through


def _dots(now: View | None, wanted: View | None, grid: Grid) -> tuple[Dots, dict[Ink, Dots]]:
    """The dots that are lit, and which dots are there for what: the first of a cell inks it."""
    metal = hole = steel = dashed = 0
    if now is not None:
        metal, hole = _metal(now, grid)
        steel = filled(now.steel, grid) & metal
        # The far mouth of a hole that is seen through tells nothing at this size.
        open_zones = {one.zone for one in now.holes if not one.hidden}
        behind = [one.points for one in now.holes if one.hidden and one.zone not in open_zones]
        dashed = edge(filled(behind, grid, always=False), grid) & _dashes(grid)
    line = edge(_metal(wanted, grid)[0], grid) if wanted is not None else 0
    line &= ~edge(metal, grid)  # where the metal already ends where it is wanted to, its own edge says so
    view = now or wanted
    mark = _marks(view, grid) & ~hole & ~line if view is not None else 0
    full = metal & ~steel | steel & _checker(grid)
    signs = mark | line  # dark on metal and bright beside it
    lit = full & ~dashed & ~signs | signs & ~metal
    inks = {
        Ink.OUTLINE: line,
        Ink.MARK: mark,
        Ink.STEEL: steel,
        Ink.SOLID: metal,
        Ink.HOLE: hole | dashed,
    }
    return lit, inks


def _checker(grid: Grid) -> Dots:
    """Every second dot, so placed that those on the axis belong to even columns."""
    pair = [sum(1 << row for row in range(first, grid.height, 2)) for first in (0, 1)]
    return tiled(pair if grid.axis_row % 2 == 0 else pair[::-1], grid)


def _dashes(grid: Grid) -> Dots:
    """Dashes two dots long, whichever way an edge runs."""
    rows = range(grid.height)
    return tiled([sum(1 << row for row in rows if (first + row) % 4 < 2) for first in range(4)], grid)


def _marks(view: View, grid: Grid) -> Dots:
    """A dotted upright where a zone begins, but for marks too close to be told apart."""
    dots = 0
    dotted = sum(1 << row for row in range(grid.height) if (row - grid.axis_row) % 2)
    last = 0
    for mark in view.marks:
        column = grid.column_of(mark.x_mm)
        if column - last >= _MARKS_APART and grid.width - column >= _MARKS_APART:
            dots |= dotted << column * grid.step
            last = column
    return dots
