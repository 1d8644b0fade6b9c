"""A bar along its length to scale, its marks as gaps in it, each figure from the end at its own mark."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from math import floor
from typing import Final, NamedTuple

from coach.drawing.cells import Ink, Line, Sheet, cell_width
from coach.ledger.plan import PlannedPiece
from coach.quantities.figure import Figure
from coach.telling.figures import write_figure
from coach.telling.writing import Shown

#: Cells that stand for the rest of the bar, which is not to scale: it may be a metre long.
_REST: Final = 6
_BAR, _HALF, _BEYOND, _MISSING = "█", "▌", "░", "·"
_TICK, _CENTRE = "│", "○"


class _Label(NamedTuple):
    """A text that belongs to a cell of the bar."""

    cell: int
    text: str
    ink: Ink


def marked_bar(piece: PlannedPiece, columns: int, shown: Shown, *, bar_rows: int = 2) -> tuple[Line, ...]:
    """The bar of a piece with what is marked on it.

    Above it stands how far from the end each mark and each hole's centre is; below, what is made of it.
    Figures and names that would stand in each other's way go up or down a row, with a line to their place.

    Args:
        piece: what is planned of it.
        columns: the most cells a line may take.
        shown: the units of the figures; they stand without their unit, which the words beside tell.
        bar_rows: the rows that the bar itself is drawn in.

    Returns:
        No line where there are too few columns for the bar to tell anything.
    """
    marked = [*(mark.at for mark in piece.marks), *(centre.at for centre in piece.centres)]
    places = sorted({at.value: at for at in marked}.items())
    figures = [write_figure(at, shown, "n") for _, at in places]
    begin = write_figure(piece.begins, shown, "n") if piece.begins.value else "0"
    rest = max(_REST, *(cell_width(text) + 1 for text in figures))
    across = columns - rest
    if across < 2 * max(rest, len(places)):
        return ()
    from_mm = piece.begins.value
    cells = _cells([(at - from_mm) / piece.length.value for at, _ in places], across)
    at_cell = dict(zip((at for at, _ in places), cells, strict=True))

    def cell(at: Figure) -> int:
        return at_cell[at.value]

    above = [_Label(at, text, Ink.FIGURE) for at, text in zip((0, *cells), (begin, *figures), strict=True)]
    begins = [0, *(cell(mark.at) + 1 for mark in piece.marks)]
    below = [
        _Label(min(at, across - 1), zone.zone, Ink.MARK)
        for at, zone in zip(begins, piece.zones, strict=False)
    ]
    below += [_Label(cell(one.at), "hole", Ink.HOLE) for one in piece.centres]
    below.append(_Label(begins[-1], _cut_text(piece, columns - max(one.cell for one in below)), Ink.MARK))
    over, under = above, _together(below)
    top = len(over) + 1
    sheet = Sheet(columns, top + bar_rows + len(under))
    _write(sheet, over, range(top - 2, -1, -1))
    _write(sheet, under, range(top + bar_rows, sheet.rows))
    for row in range(top, top + bar_rows):
        for at, letter in enumerate(_metal(piece, across, rest)):
            sheet.put(row, at, letter, Ink.MARK)  # quieter than the figures, for they are what is read
        for mark in piece.marks[:-1]:
            sheet.put(row, cell(mark.at), _HALF, Ink.MARK)
        for centre in piece.centres:
            sheet.put(row, cell(centre.at), _CENTRE, Ink.HOLE)
    for label in over:
        sheet.put(top - 1, label.cell, _TICK, Ink.FIGURE)
    return tuple(_without_blank_ends(sheet.lines()))


def _cut_text(piece: PlannedPiece, room: int) -> str:
    """What happens at the end of a piece, in the cells from the last name's first on."""
    cut = piece.marks[-1].cut_in
    told = f"step {cut} cuts"
    return "cut" if cut is None or cell_width(told) + 1 > room else told


def _cells(shares: Sequence[float], across: int) -> list[int]:
    """The cells of places along the bar, each its own, and none the one that marks are measured from."""
    found: list[int] = []
    for share in shares:
        found.append(max(floor(share * across), (found[-1] if found else 0) + 1))
    for at in range(len(found) - 1, -1, -1):
        found[at] = min(found[at], across - (len(found) - 1 - at))
    return found


def _metal(piece: PlannedPiece, across: int, rest: int) -> str:
    """The bar from its end: what is marked out, then what goes on beyond it, or what is missing of it."""
    left = piece.left_over.value if piece.left_over is not None else None
    if left is not None and left < 0.0:
        there = max(round((1.0 + left / piece.length.value) * across), 0)
        return _BAR * there + _MISSING * (across - there)
    goes_on = left is None or left > 0.0
    return _BAR * across + " " + _BEYOND * (rest - 1) * goes_on


def _together(labels: Iterable[_Label]) -> list[_Label]:
    """Labels in their order along the bar; those of one cell are told in one."""
    found: dict[int, _Label] = {}
    for one in sorted(labels, key=lambda label: label.cell):
        before = found.get(one.cell)
        found[one.cell] = one if before is None else before._replace(text=f"{before.text}, {one.text}")
    return list(found.values())


def _write(sheet: Sheet, labels: list[_Label], rows: range) -> None:
    """Write labels in the rows that lead away from the bar, each as near to it as there is room.

    From the far end back: one that begins at its own cell is then in nobody's way but of what stands already.
    """
    for at in range(len(labels) - 1, -1, -1):
        label, before = labels[at], labels[at - 1].cell if at else -1
        for level, row in enumerate(rows):
            between = rows[:level]
            if any(not sheet.has_room(one, label.cell, 1, beside=0) for one in between):
                break
            if any(sheet.write(row, first, label.text, label.ink) for first in _firsts(label, before, sheet)):
                for one in between:
                    sheet.put(one, label.cell, _TICK, Ink.FIGURE)
                break


def _firsts(label: _Label, before: int, sheet: Sheet) -> Iterator[int]:
    """Where a label may begin: about its cell, so that it hides no cell before it, or at its cell."""
    wide = cell_width(label.text)
    middle = max(label.cell - wide // 2, 0) if label.ink is not Ink.MARK else label.cell
    for first in (middle, label.cell, sheet.columns - wide):
        if before + (first < label.cell) < first <= label.cell and first <= max(sheet.columns - wide, 0):
            yield first


def _without_blank_ends(lines: tuple[Line, ...]) -> Iterator[Line]:
    kept = [at for at, line in enumerate(lines) if line]
    yield from lines[kept[0] : kept[-1] + 1]
