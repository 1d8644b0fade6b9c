"""Views drawn on paper: an SVG in millimetres that prints at full size."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from typing import Final, NamedTuple

from coach.drawing import ink
from coach.drawing.views import Axis, Dimension, View
from coach.forms import Point
from coach.telling.writing import Shown, write_length

_METRIC: Final = Shown()

_MARGIN_MM: Final = 8.0
_TITLE_MM: Final = 5.0
_ROW_MM: Final = 4.6  # from one row of figures to the next
_OVERHANG_MM: Final = 2.0  # of a mark beyond the body
_APART_MM: Final = 1.0  # between words in one row
_EDGE_MM: Final = 1.0  # of the paper that no words come to

_UNIT: Final = {"mm": "mm", "in": "inches"}
_METAL: Final = "#e4e4e4"


class _Label(NamedTuple):
    """Words and the middle of the place where they belong, across the paper."""

    x_mm: float
    words: str


class _Paper:
    """Elements so far, and how far down the paper they reach."""

    __slots__ = ("at_mm", "parts", "shown", "width_mm")

    def __init__(self, width_mm: float, shown: Shown) -> None:
        self.parts: list[str] = []
        self.width_mm = width_mm
        self.shown = shown
        self.at_mm = _MARGIN_MM

    def size(self, mm: float) -> str:
        """A size as it is written in the drawing, its unit being said once for all."""
        return write_length(mm, self.shown, unit=False)

    def rows(self, labels: Iterable[_Label], *, more: str = "") -> dict[_Label, float]:
        """Write labels in as few rows as keep them apart; where each has its base line.

        Those that say the same at one place are written once.
        """
        ends: list[float] = []  # how far each row is written
        found: dict[_Label, int] = {}
        placed: list[tuple[int, _Label]] = []
        for label in sorted(dict.fromkeys(labels)):
            half = min(ink.wide_mm(label.words), self.width_mm - 2 * _EDGE_MM) / 2
            x = min(max(label.x_mm, _EDGE_MM + half), self.width_mm - _EDGE_MM - half)
            row = next((row for row, end in enumerate(ends) if end + _APART_MM <= x - half), len(ends))
            ends[row : row + 1] = [x + ink.wide_mm(label.words) / 2]
            found[label] = row
            placed.append((row, _Label(x, label.words)))
        base = self.at_mm + _ROW_MM
        for row, label in sorted(placed, key=lambda one: one[0]):
            self.parts.append(ink.figure(label.x_mm, base + _ROW_MM * row, label.words, more=more))
        self.at_mm += _ROW_MM * len(ends)
        return {label: base + _ROW_MM * row for label, row in found.items()}


def svg(views: Sequence[View], title: str, shown: Shown = _METRIC) -> str:
    """The views one under the other as an SVG document, one unit to the millimetre.

    Metal is grey, steel hatched, marks dash-dotted, the edge of a hole behind metal dashed. Lengths are
    dimensioned below each view, sizes across above it. It needs no other file and no font of its own.
    """
    hatched = "; steel is hatched" if any(view.steel for view in views) else ""
    note = f"Sizes in {_UNIT[shown.system]}, drawn at full size{hatched}."
    length = max(view.length_mm for view in views)
    width = max(length, ink.wide_mm(title, _TITLE_MM), ink.wide_mm(note)) + 2 * _MARGIN_MM
    paper = _Paper(width, shown)
    paper.at_mm += _TITLE_MM
    paper.parts.append(ink.text(_MARGIN_MM, paper.at_mm, title, size_mm=_TITLE_MM))
    paper.at_mm += _ROW_MM
    paper.parts.append(ink.text(_MARGIN_MM, paper.at_mm, note))
    for view in views:
        paper.at_mm += 2 * _ROW_MM
        words = f"Seen on the {view.facing}"
        paper.parts.append(ink.text(_MARGIN_MM, paper.at_mm, words, more=' font-weight="bold"'))
        _draw(view, paper)
    across, down = ink.number(width), ink.number(paper.at_mm + _MARGIN_MM)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{across}mm" height="{down}mm" '
        f'viewBox="0 0 {across} {down}" font-family="sans-serif" font-size="{ink.FIGURE_MM}">'
        f'<title>{ink.letters(title)}</title><rect width="{across}" height="{down}" fill="#fff"/>'
        f"{''.join(paper.parts)}</svg>\n"
    )


def _draw(view: View, paper: _Paper) -> None:
    """One view with all that is written about it."""
    ends = [*(mark.x_mm for mark in view.marks), view.length_mm][1:]
    names = [
        _Label((mark.x_mm + end) / 2 + _MARGIN_MM, mark.name)
        for mark, end in zip(view.marks, ends, strict=True)
    ]
    paper.rows(names, more=' font-style="italic"')
    across = [one for one in view.dimensions if one.axis is Axis.ACROSS]
    labels = [_Label(one.start[0] + _MARGIN_MM, paper.size(one.size_mm)) for one in across]
    bases = paper.rows(labels)
    axis = paper.at_mm + _OVERHANG_MM + view.height_mm / 2

    def placed(point: Point) -> Point:
        return point[0] + _MARGIN_MM, axis - point[1]

    paper.parts += _body(view, placed)
    for label, one in dict(zip(labels, across, strict=True)).items():
        from_mm = bases[label] + 0.3 * ink.FIGURE_MM
        paper.parts += ink.crosswise(placed(one.finish), placed(one.start), from_mm)
    paper.at_mm = axis + view.height_mm / 2 + _OVERHANG_MM
    paper.rows(_hole_labels(view, paper, axis))
    _lengths([one for one in view.dimensions if one.axis is Axis.ALONG], view, placed, paper)


def _body(view: View, placed: Callable[[Point], Point]) -> list[str]:
    """The metal, its steel and its holes, and the marks between its zones."""
    parts = []
    for outline in view.outlines:
        parts.append(ink.polygon(map(placed, outline), fill=_METAL, line_mm=ink.BODY_LINE_MM))
    for points in view.steel:
        parts += ink.hatched([placed(point) for point in points])
    # A mouth that is seen lies over what it opens; an edge behind metal is drawn over the metal.
    for hole in sorted(view.holes, key=lambda hole: hole.hidden):
        parts.append(
            ink.polygon(
                map(placed, hole.points),
                fill="none" if hole.hidden else "#fff",
                line_mm=ink.FINE_LINE_MM if hole.hidden else ink.BODY_LINE_MM,
                dashed=hole.hidden,
            )
        )
    reach = view.height_mm / 2 + _OVERHANG_MM
    for mark in view.marks[1:]:
        parts.append(ink.line(placed((mark.x_mm, reach)), placed((mark.x_mm, -reach)), dashes="3 1 0.5 1"))
    return parts


def _hole_labels(view: View, paper: _Paper, axis: float) -> list[_Label]:
    """The holes' sizes: written in the hole where they fit, else left for a row below the view."""
    below = []
    for zone in dict.fromkeys(hole.zone for hole in view.holes if hole.sizes_mm):
        mouths = [hole for hole in view.holes if hole.zone == zone and hole.sizes_mm]
        words = " to ".join(" × ".join(map(paper.size, mouth.sizes_mm)) for mouth in mouths)
        along = [point[0] for point in mouths[0].points]
        middle = (min(along) + max(along)) / 2 + _MARGIN_MM
        sizes = mouths[0].sizes_mm
        if ink.wide_mm(words) < 0.8 * sizes[0] and sizes[-1] > 2 * ink.FIGURE_MM:
            paper.parts.append(ink.figure(middle, axis + 0.35 * ink.FIGURE_MM, words))
        else:
            below.append(_Label(middle, f"hole {words}"))
    return below


def _lengths(along: Sequence[Dimension], view: View, placed: Callable[[Point], Point], paper: _Paper) -> None:
    """A row of dimension lines for the zones, and one under it for the whole."""
    for row in _one_under_the_other(along):
        paper.at_mm += _ROW_MM / 2
        for one in row:
            paper.parts += ink.lengthwise(placed(one.start), placed(one.finish), paper.at_mm)
        paper.rows(_Label(placed(one.start)[0] + one.size_mm / 2, paper.size(one.size_mm)) for one in row)
    if len(along) > 1:
        paper.at_mm += _ROW_MM / 2
        finish = placed(max((one.finish for one in along), key=lambda point: point[0]))
        start = placed(along[0].start)
        paper.parts += ink.lengthwise(start, finish, paper.at_mm)
        paper.rows([_Label((start[0] + finish[0]) / 2, paper.size(view.length_mm))])


def _one_under_the_other(along: Sequence[Dimension]) -> list[list[Dimension]]:
    """Lengths in rows in which none lies over another: those of branches run side by side."""
    rows: list[list[Dimension]] = [[]]
    for one in along:
        clear = (row for row in rows if not row or row[-1].finish[0] <= one.start[0] + _APART_MM)
        row = next(clear, None)
        if row is None:
            rows.append([one])
        else:
            row.append(one)
    return rows
