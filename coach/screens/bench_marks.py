"""The bar of a mark-out at the bench, to scale."""

from __future__ import annotations

from textual.content import Content

from coach.bench.checks import Check
from coach.bench.standing import Standing
from coach.operations.measures import MARK
from coach.quantities.figure import Figure, Kind
from coach.screens.widgets.pane import rule
from coach.screens.wording import Ink, one_line, said
from coach.telling.figures import write_figure
from coach.telling.to_go import aim_of
from coach.telling.writing import Shown

#: The least width of a bar that shows anything.
_NARROW = 50
#: The last mark stands at this share of the width.
_SHOWN_TO_THE_LAST = 0.9
#: Cells of a zone that has room for the middle of its hole and the figure of it.
_ROOM_FOR_A_MIDDLE = 12


def bar_of_marks(standing: Standing, chosen: Check | None, shown: Shown, width: int) -> list[Content]:
    """The bar to scale with every mark that is made on it, measured from its end; nothing at other steps.

    Where a zone will have a hole its middle is shown too, halfway between its marks.
    """
    marks = [
        (one.wanted.limits.nominal, one) for one in standing.checks if one.dimension == MARK and one.wanted
    ]
    marks.sort(key=lambda mark: mark[0])
    holed = {one.zone for one in standing.sizes if "hole" in one.dimension}
    if len(marks) < 2 or width < _NARROW or marks[-1][0] <= 0.0:
        return []
    room = width - 4
    start = standing.step.begins if standing.step is not None else None
    start_mm = start.value if start is not None and start.value < marks[0][0] else 0.0
    scale = room * _SHOWN_TO_THE_LAST / (marks[-1][0] - start_mm)
    first = write_figure(start, shown, "n") if start is not None and start_mm else "0"
    figures, bar, names = one_line(first, indent=1), Content(" "), Content("")
    shared = _shared_words([one.zone for _, one in marks])
    begins, begins_mm = 0, start_mm
    for at, one in marks:
        end = round((at - start_mm) * scale)
        style = "bold $accent" if one is chosen else ""
        metal = "█" * max(end - begins - 1, 0)
        if one.zone in holed and len(metal) > _ROOM_FOR_A_MIDDLE:
            middle = Figure((begins_mm + at) / 2.0, Kind.LENGTH, 0.0)
            half = len(metal) // 2
            metal = f"{metal[:half]}○{metal[half + 1 :]}"
            told = write_figure(middle, shown, "n")
            figures = _put(figures, 1 + begins + half - len(told) // 2, told, Ink.QUIET)
        begins_mm = at
        bar = Content.assemble(bar, (metal, Ink.QUIET), ("▌", style or Ink.QUIET))
        figure = aim_of(one.wanted, shown).number if one.wanted is not None else ""
        figures = _put(figures, 1 + end - len(figure) // 2, figure, style)
        names = _put(names, 1 + begins, one.zone[shared:], style)  # a long name moves the next one on
        begins = end
    bar = Content.assemble(bar, ("░" * max(room - begins, 0), Ink.QUIET))
    return [rule("Marks from the end", width), figures, bar, names.truncate(width)]


def _shared_words(names: list[str]) -> int:
    """How many letters all names begin with, in whole words: those of one arm of a pair of tongs."""
    shared = 0
    for words in zip(*(name.split(" ")[:-1] for name in names), strict=False):
        if len({*words}) > 1:
            break
        shared += len(words[0]) + 1
    return shared


def _put(line: Content, at: int, text: str, style: str) -> Content:
    """A line with a text on it, no further left than what stands there already."""
    gap = max(at - line.cell_length, 1 if line.cell_length > 1 else 0)
    return Content.assemble(line, " " * gap, said(text, style))
