"""Why a step asks another thing of a size than the drawing: what the steps ahead still do to it."""

from __future__ import annotations

from collections.abc import Iterable
from math import isfinite

from coach.bench.checks import Check
from coach.bench.standing import Standing
from coach.ledger.zone_forecast import FinishedSize
from coach.quantities import Figure
from coach.telling.figures import write_figure, write_wanted
from coach.telling.page import Line
from coach.telling.words import sentence
from coach.telling.writing import Shown


def in_the_end_lines(standing: Standing, shown: Shown) -> list[Line]:
    """A line for each size of the step of which the drawing wants something else."""
    ends = (in_the_end_text(one, standing.sizes, shown) for one in standing.checks)
    return [Line(sentence(end, shown), "Drawing") for end in ends if end]


def in_the_end_text(check: Check, sizes: Iterable[FinishedSize], shown: Shown) -> str:
    """What the drawing wants of a size where the step in hand asks something else of it; else nothing.

    Args:
        check: the size, as the step asks for it.
        sizes: those of the drawing.
        shown: the units.
    """
    drawn = next((one.wanted for one in sizes if one.name == check.name), None)
    if drawn is None or check.wanted is None or check.wanted.kind is not drawn.kind:
        return ""
    here, end = check.wanted.limits, drawn.limits
    asked, told = write_wanted(check.wanted, shown), write_wanted(drawn, shown)
    low, drawn_low = (write_figure(Figure(one.low, drawn.kind), shown) for one in (here, end))
    if asked == told or (not isfinite(here.high) and low == drawn_low):
        return ""
    wants = f"{check.label} {told} in the end"
    if not isfinite(here.high):
        return f"{wants}: less than {low} as it is now is too little for the work still ahead"
    if end.low <= here.low and here.high <= end.high:
        return f"{wants}: this step keeps closer, {asked}"
    return f"{wants}: the steps ahead bring it there from {asked}"
