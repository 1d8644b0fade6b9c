"""Views drawn on paper: an SVG in millimetres that prints at full size."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Final

from coach.drawing import ink
from coach.drawing.paper import MARGIN_MM, ROW_MM, Label, Paper
from coach.drawing.views import Axis, Dimension, View
from coach.forms import Point
from coach.telling.writing import Shown

_METRIC: Final = Shown()

_TITLE_MM: Final = 5.0
_OVERHANG_MM: Final = 2.0  # of a mark beyond the body
_APART_MM: Final = 1.0  # between dimension lines in one row

UNIT: Final = {"mm": "mm", "in": "inches"}
_METAL: Final = "#e4e4e4"


def svg(views: Sequence[View], title: str, shown: Shown = _METRIC, scale: int = 1) -> str:
    """The views one under the other as an SVG document, one unit to the millimetre, one to `scale`.

    Metal is grey, steel hatched, marks dash-dotted, the edge of a hole behind metal dashed. Lengths are
    dimensioned below each view, sizes across above it. It needs no other file and no font of its own.
    """
    hatched = "; steel is hatched" if any(view.steel for view in views) else ""
    drawn = "drawn at full size" if scale == 1 else f"drawn 1 to {scale}"
    note = f"Sizes in {UNIT[shown.system]}, {drawn}{hatched}."
    length = max(view.length_mm for view in views) / scale
    width = max(length, ink.wide_mm(title, _TITLE_MM), ink.wide_mm(note)) + 2 * MARGIN_MM
    paper = Paper(width, shown)
    paper.at_mm += _TITLE_MM
    paper.parts.append(ink.text(MARGIN_MM, paper.at_mm, title, size_mm=_TITLE_MM))
    paper.at_mm += ROW_MM
    paper.parts.append(ink.text(MARGIN_MM, paper.at_mm, note))
    for view in views:
        paper.at_mm += 2 * ROW_MM
        words = f"Seen on the {view.facing}"
        paper.parts.append(ink.text(MARGIN_MM, paper.at_mm, words, more=' font-weight="bold"'))
        draw(view, paper, scale)
    return paper.document(title)


def draw(view: View, paper: Paper, scale: int = 1) -> None:
    """One view with all that is written about it."""
    ends = [*(mark.x_mm for mark in view.marks), view.length_mm][1:]
    names = [
        Label((mark.x_mm + end) / 2 / scale + MARGIN_MM, mark.name)
        for mark, end in zip(view.marks, ends, strict=True)
    ]
    paper.rows(names, more=' font-style="italic"')
    across = [one for one in view.dimensions if one.axis is Axis.ACROSS]
    labels = [Label(one.start[0] / scale + MARGIN_MM, paper.size(one.size_mm)) for one in across]
    bases = paper.rows(labels)
    half = view.height_mm / 2 / scale
    axis = paper.at_mm + _OVERHANG_MM + half

    def placed(point: Point) -> Point:
        return point[0] / scale + MARGIN_MM, axis - point[1] / scale

    paper.parts += _body(view, placed)
    for mark in view.marks[1:]:
        x, reach = placed((mark.x_mm, 0.0))[0], half + _OVERHANG_MM
        top = axis - reach + 0.3 * ink.FIGURE_MM  # below the figures, as their own lines are
        paper.parts.append(ink.line((x, top), (x, axis + reach), dashes="3 1 0.5 1"))
    for label, one in dict(zip(labels, across, strict=True)).items():
        from_mm = bases[label] + 0.3 * ink.FIGURE_MM
        paper.parts += ink.crosswise(placed(one.finish), placed(one.start), from_mm)
    paper.at_mm = axis + half + _OVERHANG_MM
    holes = _hole_labels(view, paper, axis, scale)
    before = len(paper.parts)
    paper.rows(holes, backed=True)
    below = [paper.parts.pop() for _ in paper.parts[before:]][::-1]
    _lengths([one for one in view.dimensions if one.axis is Axis.ALONG], view, placed, paper)
    paper.parts += below  # over the lines of the lengths, which run down through their row


def _body(view: View, placed: Callable[[Point], Point]) -> list[str]:
    """The metal, its steel and its holes."""
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
    return parts


def _hole_labels(view: View, paper: Paper, axis: float, scale: int) -> list[Label]:
    """The holes' sizes: written in the hole where they fit, else left for a row below the view."""
    below = []
    for zone in dict.fromkeys(hole.zone for hole in view.holes if hole.sizes_mm):
        mouths = [hole for hole in view.holes if hole.zone == zone and hole.sizes_mm]
        told = (" × ".join(map(paper.size, mouth.sizes_mm)) for mouth in mouths)
        words = " to ".join(dict.fromkeys(told))  # one that is as wide at both ends is told once
        along = [point[0] for point in mouths[0].points]
        middle = (min(along) + max(along)) / 2 / scale + MARGIN_MM
        sizes = [size / scale for size in mouths[0].sizes_mm]
        if ink.wide_mm(words) < 0.8 * sizes[0] and sizes[-1] > 2 * ink.FIGURE_MM:
            paper.parts.append(ink.figure(middle, axis + 0.35 * ink.FIGURE_MM, words))
        else:
            below.append(Label(middle, f"hole {words}"))
    return below


def _lengths(along: Sequence[Dimension], view: View, placed: Callable[[Point], Point], paper: Paper) -> None:
    """A row of dimension lines for the zones, and one under it for the whole."""
    for row in _one_under_the_other(along):
        paper.at_mm += ROW_MM / 2
        for one in row:
            paper.parts += ink.lengthwise(placed(one.start), placed(one.finish), paper.at_mm)
        paper.rows(
            Label((placed(one.start)[0] + placed(one.finish)[0]) / 2, paper.size(one.size_mm)) for one in row
        )
    if len(along) > 1:
        paper.at_mm += ROW_MM / 2
        finish = placed(max((one.finish for one in along), key=lambda point: point[0]))
        start = placed(along[0].start)
        paper.parts += ink.lengthwise(start, finish, paper.at_mm)
        paper.rows([Label((start[0] + finish[0]) / 2, paper.size(view.length_mm))])


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
