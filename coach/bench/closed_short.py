"""A ring or a link that is welded shut and read short: its weld has made its bar no thicker."""

from __future__ import annotations

from coach.bench.job_state import JobState
from coach.forms import said
from coach.ledger.closed_thicker import closed_thicker
from coach.quantities import NOTHING, Words, mm, run_on, say

_TOLD = (
    "by its {} the bar of the {} would be {} thick, and a weld makes none thicker than the {} that it had: "
    "measure its {} before it is worked on"
)


def closed_short(state: JobState) -> Words:
    """What is told where it is so in the step in hand, and the bar was not read; else nothing."""
    course = state.course()
    if course is None:
        return NOTHING
    told = []
    for zone in course.step.zones:
        if (found := closed_thicker(course, zone)) is not None:
            free = course.now.zones[zone].free
            thick = mm(round(found.seems_mm, 1)), mm(round(found.was_mm, 1))
            told.append(say(_TOLD, said(free), zone, *thick, said(found.dimension)))
    return run_on(told, "; ")
