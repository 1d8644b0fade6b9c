"""What is written about a picture in cells: the zones' names, sizes and a scale bar, each where it fits."""

from __future__ import annotations

from typing import Final

from coach.drawing.cells import DOTS_ACROSS, Ink, Sheet, cell_width
from coach.drawing.dots import Grid
from coach.drawing.views import Axis, View
from coach.telling.writing import Shown, write_length

#: Lengths that a scale bar may have, mm; and those in inches.
_BARS_MM: Final = (1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0, 500.0, 1000.0, 2000.0)
_BARS_IN: Final = (0.125, 0.25, 0.5, 1.0, 2.0, 4.0, 6.0, 12.0, 24.0, 36.0, 72.0)
_MM_PER_INCH: Final = 25.4
#: A scale bar takes at most this share of the columns.
_LONGEST_BAR: Final = 0.5


def write_names(sheet: Sheet, row: int, view: View, grid: Grid) -> None:
    """The zones' names over their zones; a name longer than its zone only where its neighbours leave room."""
    later = []
    starts = [mark.x_mm for mark in view.marks]
    for mark, finish in zip(view.marks, [*starts, view.length_mm][1:], strict=True):
        first, beyond = _cell(mark.x_mm, grid), _cell(finish, grid)
        middle = (first + beyond) / 2
        inside = (round(first), round(beyond))
        if not sheet.write_about(row, middle, mark.name, Ink.MARK, inside):
            later.append((middle, mark.name))
    for middle, name in later:
        width = cell_width(name)
        sheet.write_about(
            row,
            middle,
            name,
            Ink.MARK,
            (round(middle - width / 2), min(round(middle + width), sheet.columns)),
        )


def write_across(sheet: Sheet, row: int, view: View, grid: Grid, shown: Shown) -> None:
    """Sizes across, over the places where they are taken."""
    for one in view.dimensions:
        if one.axis is Axis.ACROSS:
            text = write_length(one.size_mm, shown, unit=False)
            sheet.write_about(row, _cell(one.start[0], grid), text, Ink.FIGURE, (0, sheet.columns))


def write_height(sheet: Sheet, row: int, view: View, grid: Grid, shown: Shown) -> None:
    """The largest size across, right of the piece."""
    column = grid.width // DOTS_ACROSS + 1
    sheet.write(row, column, f"↕ {write_length(view.height_mm, shown)}", Ink.FIGURE)


def write_lengths(sheet: Sheet, row: int, view: View, grid: Grid, shown: Shown) -> None:
    """The zones' lengths under them, and the whole right of them."""
    for one in view.dimensions:
        if one.axis is Axis.ALONG:
            first, beyond = _cell(one.start[0], grid), _cell(one.finish[0], grid)
            text = write_length(one.size_mm, shown, unit=False)
            sheet.write_about(row, (first + beyond) / 2, text, Ink.FIGURE, (round(first), round(beyond)))
    column = grid.width // DOTS_ACROSS + 1
    sheet.write(row, column, f"↔ {write_length(view.length_mm, shown)}", Ink.FIGURE)


def write_bar(sheet: Sheet, row: int, grid: Grid, shown: Shown) -> None:
    """A scale bar at the left of a row of its own, else at the right of the row."""
    text = scale_bar(grid.mm_per_dot, int(sheet.columns * _LONGEST_BAR), shown)
    if not sheet.write(row, 0, text, Ink.FIGURE):
        sheet.write(row, sheet.columns - cell_width(text), text, Ink.FIGURE)


def scale_bar(mm_per_dot: float, columns: int, shown: Shown) -> str:
    """The longest bar of a round length that its words and its ends fit in, and that fits these columns.

    Its length is right to half a cell; empty where none fits.

    >>> scale_bar(2.5, 30, Shown())
    '|----- 100 mm -----|'
    """
    bars = _BARS_MM if shown.system == "mm" else tuple(_MM_PER_INCH * inches for inches in _BARS_IN)
    for length_mm in reversed(bars):
        cells = round(length_mm / mm_per_dot / DOTS_ACROSS)
        words = f" {write_length(length_mm, shown)} "
        if len(words) + 4 <= cells <= columns:
            left, odd = divmod(cells - 2 - len(words), 2)
            return f"|{'-' * left}{words}{'-' * (left + odd)}|"
    return ""


def _cell(x_mm: float, grid: Grid) -> float:
    """A place along the piece as cells from the left, to parts of a cell."""
    return (x_mm + grid.before_mm) / grid.mm_per_dot / DOTS_ACROSS
