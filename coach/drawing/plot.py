"""A size over the heats of a job, with its band of doubt, drawn in braille cells."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from itertools import pairwise
from typing import Final, NamedTuple

from coach.drawing.braille import LEAST_COLUMNS, LEAST_ROWS
from coach.drawing.cells import DOTS_ACROSS, DOTS_DOWN, Ink, Line, Sheet, cell_width
from coach.drawing.views import DrawingError

#: Fewer columns than this are not worth drawing in: the figures at the left give way.
_LEAST_FOR_DOTS: Final = 6
#: Half the width of the band of a single point, in dots.
_ALONE_DOTS: Final = 2


class Point(NamedTuple):
    """A size at the end of a heat."""

    heat: int
    value: float
    low: float
    high: float  # the band of doubt, the value within it or not


class _Scale(NamedTuple):
    """Where heats and sizes lie among the dots."""

    first_heat: int
    last_heat: int
    low: float
    high: float
    width: int
    height: int

    def column(self, heat: float) -> float:
        """The column of dots of a heat; a single heat is in the middle."""
        span = self.last_heat - self.first_heat
        share = (heat - self.first_heat) / span if span else 0.5
        return share * (self.width - 1)

    def row(self, value: float) -> float:
        """The row of dots of a size, the highest at the top."""
        return (self.high - value) / (self.high - self.low) * (self.height - 1)


def plot(
    points: Sequence[Point],
    columns: int,
    rows: int,
    *,
    label: Callable[[float], str],
) -> tuple[Line, ...]:
    """A line through the values over a checkered band from low to high, with figures left and below.

    Zero is always in it, as a dotted line.

    Args:
        points: in any order; none draws nothing.
        columns: the most cells a line may take.
        rows: the most lines.
        label: how a size is written.

    Returns:
        At most `rows` lines; none below 8 by 3 cells.

    Raises:
        DrawingError: a value is no finite number, or a band's low is above its high,
            or the sizes are farther apart than numbers go.
    """
    if not points or columns < LEAST_COLUMNS or rows < LEAST_ROWS:
        return ()
    for point in points:
        _check(point)
    ordered = sorted(points, key=lambda point: point.heat)
    low, high = _range(ordered)
    # The last value is what one looks for; it gives way to the others where they meet.
    told = [high, low, 0.0, ordered[-1].value]
    margin = max(cell_width(label(size)) for size in told) + 1
    if columns - margin < _LEAST_FOR_DOTS:
        margin = 0
    scale = _Scale(
        ordered[0].heat,
        ordered[-1].heat,
        low,
        high,
        DOTS_ACROSS * (columns - margin),
        DOTS_DOWN * (rows - 1),
    )
    sheet = Sheet(columns, rows)
    _draw(sheet, margin, ordered, scale)
    if margin:
        for size in told:
            words = label(size)
            sheet.write(
                round(scale.row(size)) // DOTS_DOWN, margin - 1 - cell_width(words), words, Ink.FIGURE
            )
    _write_heats(sheet, margin, ordered, scale)
    return sheet.lines()


def _check(point: Point) -> None:
    if not all(math.isfinite(one) for one in (point.value, point.low, point.high)):
        raise DrawingError(f"The size after heat {point.heat} cannot be plotted: it is no finite number.")
    if point.low > point.high:
        raise DrawingError(
            f"The band after heat {point.heat} cannot be plotted: its low, {point.low:.4g}, is above its "
            f"high, {point.high:.4g}."
        )


def _range(points: Sequence[Point]) -> tuple[float, float]:
    """The lowest and the highest that is shown; apart even where all is nothing."""
    shown = [0.0, *(one for point in points for one in (point.value, point.low, point.high))]
    low, high = min(shown), max(shown)
    if not math.isfinite(high - low):
        raise DrawingError(f"Sizes from {low:.4g} to {high:.4g} are too far apart to be plotted.")
    return (low, high) if low < high else (-0.5, 0.5)


def _draw(sheet: Sheet, margin: int, points: Sequence[Point], scale: _Scale) -> None:
    band = [0] * scale.width
    line = [0] * scale.width
    ends = [(scale.column(point.heat), point) for point in points]
    if scale.first_heat == scale.last_heat:
        middle = ends[0][0]
        ends = [(middle - _ALONE_DOTS, ends[0][1]), *ends, (middle + _ALONE_DOTS, ends[-1][1])]
    for (from_column, one), (to_column, other) in pairwise(ends):
        reached = range(max(math.ceil(from_column), 0), min(math.floor(to_column), scale.width - 1) + 1)
        before: int | None = None
        for column in reached:
            share = (column - from_column) / (to_column - from_column) if to_column > from_column else 0.0
            top, bottom, at = (
                round(scale.row(first + share * (second - first)))
                for first, second in (
                    (one.high, other.high),
                    (one.low, other.low),
                    (one.value, other.value),
                )
            )
            band[column] |= sum(1 << row for row in range(top, bottom + 1) if (row + column) % 2)
            # A steep line is filled between its dots.
            line[column] |= _between(at if before is None else before, at)
            before = at
    # A dark edge either side keeps the line apart from its band without any colour.
    band = [dots & ~(drawn << 1 | drawn | drawn >> 1) for dots, drawn in zip(band, line, strict=True)]
    even = [1 << round(scale.row(0.0)) if column % 2 == 0 else 0 for column in range(scale.width)]
    lit = [one | other | ground for one, other, ground in zip(band, line, even, strict=True)]
    sheet.draw(0, margin, lit, {Ink.SOLID: line, Ink.STEEL: band, Ink.MARK: even})


def _between(one: int, other: int) -> int:
    """The dots from next to one row to another."""
    step = (other > one) - (other < one)
    first = one + step if abs(other - one) > 1 else other
    return sum(1 << row for row in range(min(first, other), max(first, other) + 1))


def _write_heats(sheet: Sheet, margin: int, points: Sequence[Point], scale: _Scale) -> None:
    """The numbers of the first and the last heat, then of those between as far as there is room."""
    heats = list(dict.fromkeys(point.heat for point in points))
    for heat in (heats[0], heats[-1], *heats[1:-1]):
        middle = margin + (scale.column(heat) + 0.5) / DOTS_ACROSS
        words = f"heat {heat}" if heat == heats[0] else f"{heat}"
        sheet.write_about(sheet.rows - 1, middle, words, Ink.FIGURE, (0, sheet.columns))
