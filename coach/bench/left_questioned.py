"""A tool that was read outside of its drawing last, by a reading that is questioned still."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from coach.bench.job_state import JobState
from coach.forms import said
from coach.recipe.model import Step


class LeftQuestioned(NamedTuple):
    """A last reading that nobody took again."""

    entry: int
    text: str
    zone: str
    step: Step


def left_questioned(state: JobState) -> Iterator[LeftQuestioned]:
    """The sizes of the drawing that a finished tool was read out of last, where that is questioned still.

    Which of two readings was the slip nobody has said: the tool is not told whole on the older one's word.
    """
    if state.step is not None:
        return
    drawing = state.plan.recipe.drawing
    last = {one.mark.reading[:2]: (course.step, one) for course in state.courses() for one in course.outcomes}
    for (zone, dimension), (step, outcome) in last.items():
        limits = drawing[zone].limits.get(dimension) if zone in drawing else None
        if limits is None or not outcome.questioned or outcome.old:
            continue
        if not limits.contains(outcome.mark.reading.size_mm):
            text = f"{said(dimension)} was read outside of the drawing last, and is questioned: read it again"
            yield LeftQuestioned(outcome.mark.entry, text, zone, step)
