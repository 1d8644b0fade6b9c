"""How the spare of each zone went over the heats of a job, drawn for paper: a line in its band of doubt."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final, NamedTuple

from coach.drawing import ink
from coach.drawing.bar_on_paper import WIDTH_MM
from coach.drawing.paper import Paper
from coach.quantities.figure import COVERAGE, mm
from coach.telling.figures import write_figure
from coach.telling.writing import Shown, write_length

_WIDE_MM: Final = 88.0  # of one plot: two beside each other
_HIGH_MM: Final = 34.0
_LEFT_MM: Final = 14.0  # for figures
_GAP_MM: Final = 8.0
_LINE_MM: Final = 4.6


class SpareAt(NamedTuple):
    """The spare at one moment, mm."""

    heats: int
    value_mm: float
    low_mm: float
    high_mm: float


class SpareOf(NamedTuple):
    """The spare of one size over the heats."""

    label: str
    points: tuple[SpareAt, ...]


def spare_svg(sizes: Sequence[SpareOf], shown: Shown) -> str:
    """A plot for each size, two beside each other; below the line of zero metal is missing."""
    paper = Paper(WIDTH_MM, shown, 0.0)
    for first in range(0, len(sizes), 2):
        top = paper.at_mm + _LINE_MM + 2.0
        for place, one in enumerate(sizes[first : first + 2]):
            paper.parts += _plot(one, place * (_WIDE_MM + _GAP_MM), top, paper)
        paper.at_mm = top + _HIGH_MM + 2 * _LINE_MM
    return paper.document("The spare over the heats", below_mm=1.0)


def _figure(size_mm: float, point: SpareAt, shown: Shown) -> str:
    """A size of a moment as that moment's doubt allows it, without its unit."""
    doubt_mm = 0.5 * (point.high_mm - point.low_mm) / COVERAGE
    return (
        write_figure(mm(size_mm, doubt_mm), shown, "n")
        if doubt_mm
        else write_length(size_mm, shown, unit=False)
    )


def _plot(one: SpareOf, left: float, top: float, paper: Paper) -> list[str]:
    values = [0.0, *(each for point in one.points for each in (point.low_mm, point.high_mm))]
    low, high = min(values), max(values)
    if high - low < 1e-9:
        low, high = low - 0.5, high + 0.5
    heats = [point.heats for point in one.points]
    from_heat, span = min(heats), max(max(heats) - min(heats), 1)
    x0, wide = left + _LEFT_MM, _WIDE_MM - _LEFT_MM

    def x(heat: int) -> float:
        return x0 + wide * (heat - from_heat) / span

    def y(spare_mm: float) -> float:
        return top + 1.5 + (_HIGH_MM - 1.5) * (high - spare_mm) / (high - low)

    band = [(x(point.heats), y(point.high_mm)) for point in one.points]
    band += [(x(point.heats), y(point.low_mm)) for point in reversed(one.points)]
    parts = [
        ink.text(left, top - 2.0, f"{one.label}, {paper.shown.system}", more=' font-weight="bold"'),
        ink.polygon(band, fill="#dddddd"),
        ink.line((x0, y(0.0)), (x0 + wide, y(0.0)), dashes="1 1"),
    ]
    line = " ".join(f"{ink.number(x(point.heats))},{ink.number(y(point.value_mm))}" for point in one.points)
    parts.append(f'<polyline points="{line}" fill="none" stroke="#000" stroke-width="0.5"/>')
    last = one.points[-1]
    told = {0.0: "0", last.value_mm: _figure(last.value_mm, last, paper.shown)}
    for end in (high, low):
        if all(abs(y(end) - y(other)) > ink.FIGURE_MM for other in told):
            at = next((found for found in one.points if end in (found.low_mm, found.high_mm)), last)
            told[end] = _figure(end, at, paper.shown)
    if abs(y(last.value_mm) - y(0.0)) <= ink.FIGURE_MM and last.value_mm:
        told.pop(0.0)
    for size, words in told.items():
        parts.append(ink.text(left, y(size) + 0.35 * ink.FIGURE_MM, words))
    below = top + _HIGH_MM + _LINE_MM
    parts.append(ink.figure(x(from_heat) + 4.0, below, f"heat {from_heat}"))
    if max(heats) > from_heat:
        parts.append(ink.figure(x(max(heats)) - 2.0, below, str(max(heats))))
    return parts
