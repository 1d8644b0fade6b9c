"""Polygons in mm as a grid of dots: all of them one number, column after column, each from its top dot on.

Behind each column one bit stays dark, so that a step up or down never leads into the next one.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from itertools import pairwise
from typing import Final, NamedTuple

from coach.drawing.views import Polygon

#: A place this near to a dot's own, in dots, counts as on it: what is left of rounding must not tell.
_NEAR: Final = 1e-6

Dots = int


class Grid(NamedTuple):
    """Where the dots lie: columns along the piece, rows down, one row on the axis."""

    width: int  # even: the piece is in the middle of it
    height: int
    axis_row: int
    mm_per_dot: float
    before_mm: float  # from the grid's left edge to the start of the piece

    @property
    def step(self) -> int:
        """How many bits lie from a dot to the one right of it."""
        return self.height + 1

    def column_of(self, x_mm: float) -> int:
        """The column of dots that a place along the piece falls in."""
        column = math.floor((x_mm + self.before_mm) / self.mm_per_dot)
        return min(max(column, 0), self.width - 1)


def filled(polygons: Iterable[Polygon], grid: Grid, *, always: bool = True) -> Dots:
    """The dots inside any of these polygons; `always` marks a part thinner than a dot by the nearest one."""
    dots = 0
    for polygon in polygons:
        edges = [
            (a, b) if a[0] < b[0] else (b, a) for a, b in pairwise((*polygon, polygon[0])) if a[0] != b[0]
        ]
        if not edges:
            continue
        for column, x in _looked_at(polygon, grid, always=always):
            for place in (x - _NEAR * grid.mm_per_dot, x + _NEAR * grid.mm_per_dot):
                dots |= _slice(edges, place, grid, always=always) << column * grid.step
    return dots


def edge(dots: Dots, grid: Grid) -> Dots:
    """The dots on the border of what is filled: without one of the same on all four sides."""
    return dots & ~(dots << 1 & dots >> 1 & dots << grid.step & dots >> grid.step)


def tiled(columns: Sequence[int], grid: Grid) -> Dots:
    """These columns of dots over and over."""
    return sum(columns[at % len(columns)] << at * grid.step for at in range(grid.width))


def columns_of(dots: Dots, grid: Grid) -> list[int]:
    """Each column of dots by itself, its lowest bit the top dot."""
    return [dots >> at * grid.step & (1 << grid.height) - 1 for at in range(grid.width)]


def _looked_at(polygon: Polygon, grid: Grid, *, always: bool) -> list[tuple[int, float]]:
    """The columns that a polygon reaches, each with the place at which it is looked at."""
    xs = [point[0] for point in polygon]
    first = (min(xs) + grid.before_mm) / grid.mm_per_dot - 0.5
    last = (max(xs) + grid.before_mm) / grid.mm_per_dot - 0.5
    reached = range(max(math.ceil(first - _NEAR), 0), min(math.floor(last + _NEAR), grid.width - 1) + 1)
    if reached or not always:
        return [(column, (column + 0.5) * grid.mm_per_dot - grid.before_mm) for column in reached]
    middle = (first + last) / 2
    nearest = {math.floor(middle + 0.5 - _NEAR), math.floor(middle + 0.5 + _NEAR)}
    return [(min(max(column, 0), grid.width - 1), (min(xs) + max(xs)) / 2) for column in sorted(nearest)]


def _slice(
    edges: Sequence[tuple[tuple[float, float], tuple[float, float]]],
    x_mm: float,
    grid: Grid,
    *,
    always: bool,
) -> int:
    """The dots inside a polygon at one place along, by the even-odd rule."""
    crossings = sorted(
        y_1 + (y_2 - y_1) * (x_mm - x_1) / (x_2 - x_1)
        for (x_1, y_1), (x_2, y_2) in edges
        if x_1 <= x_mm < x_2
    )
    dots = 0
    for low, high in zip(crossings[::2], crossings[1::2], strict=False):
        top = grid.axis_row - high / grid.mm_per_dot
        bottom = grid.axis_row - low / grid.mm_per_dot
        first, last = math.ceil(top - _NEAR), math.floor(bottom + _NEAR)
        if first > last:
            if not always:
                continue
            first = last = round((top + bottom) / 2)
        first, last = max(first, 0), min(last, grid.height - 1)
        if first <= last:
            dots |= (1 << last + 1) - (1 << first)
    return dots
