"""A piece step by step: its outline after each, one beside the other, all to one scale."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Final, NamedTuple

from coach.drawing import ink
from coach.drawing.bar_on_paper import WIDTH_MM
from coach.drawing.paper import SCALES, Paper
from coach.drawing.views import View
from coach.quantities.figure import mm
from coach.telling.figures import write_figure
from coach.telling.writing import Shown, write_length

_CELL_MM: Final = 58.0  # room for one outline: three beside each other
_GAP_MM: Final = 5.0
_LINE_MM: Final = 4.0
_METAL: Final = "#e4e4e4"
_NEW: Final = "#b5b5b5"


class Stage(NamedTuple):
    """A piece after one step."""

    label: str  # the step's number and title
    view: View
    worked: tuple[str, ...]  # the zones that the step worked on: they are drawn darker
    long_doubt_mm: float = 0.0  # how well its length is known; 0 of one that is planned


def outlines_svg(title: str, stages: Sequence[Stage], shown: Shown) -> str:
    """Every stage in its order, in rows of three, with how long the piece is then."""
    longest = max(stage.view.length_mm for stage in stages)
    scale = next((one for one in SCALES if longest / one <= _CELL_MM), SCALES[-1])
    paper = Paper(WIDTH_MM, shown, 0.0)
    paper.at_mm += _LINE_MM + 1.0
    told = "drawn at full size" if scale == 1 else f"drawn 1 to {scale}"
    paper.parts.append(ink.text(0.0, paper.at_mm, f"{title}, {told}", more=' font-weight="bold"'))
    across = int((WIDTH_MM + _GAP_MM) // (_CELL_MM + _GAP_MM))
    for first in range(0, len(stages), across):
        row = stages[first : first + across]
        high = max(stage.view.height_mm for stage in row) / scale
        axis = paper.at_mm + _LINE_MM + high / 2
        for place, stage in enumerate(row):
            left = 0.5 + place * (_CELL_MM + _GAP_MM)
            paper.parts += _drawn(stage, left, axis, scale)
            length = _length(stage, shown)
            below = [*_broken(stage.label), f"{length} long"]
            for line, words in enumerate(below):
                paper.parts.append(
                    ink.text(left, axis + high / 2 + (line + 1) * _LINE_MM, words, size_mm=2.6)
                )
        most = max(len(_broken(stage.label)) for stage in row) + 1
        paper.at_mm = axis + high / 2 + most * _LINE_MM
    return paper.document(title, below_mm=2.0)


def _length(stage: Stage, shown: Shown) -> str:
    """How long the piece is, as its doubt allows it."""
    if not stage.long_doubt_mm:
        return write_length(stage.view.length_mm, shown)
    return write_figure(mm(stage.view.length_mm, stage.long_doubt_mm), shown, "~")


def _broken(label: str) -> list[str]:
    """A label in lines that find room below an outline."""
    lines: list[str] = [""]
    for word in label.split():
        longer = f"{lines[-1]} {word}".strip()
        if lines[-1] and ink.wide_mm(longer, 2.6) > _CELL_MM:
            lines.append(word)
        else:
            lines[-1] = longer
    return lines


def _drawn(stage: Stage, left_mm: float, axis_mm: float, scale: int) -> Iterable[str]:
    for name, outline in zip(_names(stage.view), stage.view.outlines, strict=False):
        points = [(left_mm + x / scale, axis_mm - y / scale) for x, y in outline]
        fill = _NEW if stage.worked and name & {*stage.worked} else _METAL
        yield ink.polygon(points, fill=fill, line_mm=0.25)
    for hole in stage.view.holes:
        points = [(left_mm + x / scale, axis_mm - y / scale) for x, y in hole.points]
        yield ink.polygon(
            points, fill="none" if hole.hidden else "#fff", line_mm=ink.FINE_LINE_MM, dashed=hole.hidden
        )


def _names(view: View) -> list[set[str]]:
    """The zones of each outline: those that lie side by side have one mark between them."""
    found: list[set[str]] = []
    for mark in view.marks:
        beside = mark.name.split(" and ")
        found += [{one} for one in beside]
    return found
