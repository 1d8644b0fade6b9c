"""A bar on paper with its marks: how far from one end each is to be made, and what it is."""

from __future__ import annotations

from typing import Final

from coach.drawing import ink
from coach.drawing.paper import ROW_MM, Label, Paper, scale_for
from coach.drawing.svg import UNIT
from coach.ledger.plan import PlannedPiece
from coach.telling.figures import write_figure
from coach.telling.writing import Shown

#: How wide the whole drawing is: both A4 and Letter have room for it between margins of 12 mm (our choice).
WIDTH_MM: Final = 184.0
_SIDE_MM: Final = 6.0  # free before the bar, and beyond what goes on of it
_REST_MM: Final = 10.0  # that stand for the rest of the bar, which is not to scale
_HIGH_MM: Final = (4.0, 16.0)  # the bar is drawn no lower and no higher, whatever its section
_TICK_MM: Final = 1.6
_METAL: Final = "#e4e4e4"


def bar_svg(piece: PlannedPiece, shown: Shown) -> str:
    """The bar of a piece to scale along its length, its marks numbered from the end they are measured from.

    Above stands how far from that end each mark and each hole's centre is; below, what is made of the bar
    between them. What goes on beyond the last mark is dashed, and so is what is missing.
    """
    room = WIDTH_MM - 2 * _SIDE_MM - _REST_MM
    scale = scale_for(piece.length.value, room)
    paper = Paper(WIDTH_MM, shown, 0.0)
    told = "at full size" if scale == 1 else f"1 to {scale}"
    note = f"{piece.piece}: lengths {told}, in {UNIT[shown.system]} from this end"
    paper.at_mm += ROW_MM
    paper.parts.append(ink.text(_SIDE_MM, paper.at_mm, note))

    from_mm = piece.begins.value
    begin = write_figure(piece.begins, shown, "n") if from_mm else "0"

    def placed(mm: float) -> float:
        return _SIDE_MM + (mm - from_mm) / scale

    marked = [*(mark.at for mark in piece.marks), *(centre.at for centre in piece.centres)]
    figures = [Label(placed(at.value), write_figure(at, shown, "n")) for at in marked]
    bases = paper.rows([Label(placed(from_mm), begin), *figures], more=' font-weight="bold"')
    top = paper.at_mm + _TICK_MM
    high = min(max(piece.stock.sizes[0].value / scale, _HIGH_MM[0]), _HIGH_MM[1])
    middle, bottom = top + high / 2, top + high
    end = placed(from_mm + piece.length.value)
    paper.parts.append(_box(placed(from_mm), end, top, bottom, fill=_METAL))
    left = piece.left_over.value if piece.left_over is not None else None
    if left is not None and left < 0.0:
        there = max(placed(from_mm + piece.length.value + left), placed(from_mm))
        paper.parts.append(_box(there, end, top, bottom, fill="#fff", dashed=True))
    elif left is None or left > 0.0:
        paper.parts.append(_box(end, end + _REST_MM, top, bottom, fill="none", dashed=True))
    for label in figures:
        paper.parts.append(ink.line((label.x_mm, bases[label] + 0.3 * ink.FIGURE_MM), (label.x_mm, top)))
    for mark in piece.marks:
        x = placed(mark.at.value)
        paper.parts.append(ink.line((x, top), (x, bottom + _TICK_MM)))
    for centre in piece.centres:
        x, reach = placed(centre.at.value), _TICK_MM
        paper.parts.append(ink.line((x - reach, middle), (x + reach, middle)))
        paper.parts.append(ink.line((x, middle - reach), (x, middle + reach)))
    paper.at_mm = bottom + _TICK_MM / 2
    begins = [from_mm, *(mark.at.value for mark in piece.marks)]
    names = [
        Label((placed(start) + placed(finish)) / 2, zone.zone)
        for start, finish, zone in zip(begins, begins[1:], piece.zones, strict=False)
    ]
    paper.rows([*names, *(Label(placed(one.at.value), "hole") for one in piece.centres)])
    return paper.document(f"The bar of the {piece.piece} with its marks", below_mm=1.0)


def _box(from_mm: float, to_mm: float, top: float, bottom: float, *, fill: str, dashed: bool = False) -> str:
    corners = ((from_mm, top), (to_mm, top), (to_mm, bottom), (from_mm, bottom))
    return ink.polygon(corners, fill=fill, line_mm=ink.BODY_LINE_MM, dashed=dashed)
