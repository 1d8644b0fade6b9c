"""What a finished step has left to be looked at, zone by zone, until something since has told of it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import TypeVar

from coach.bench.job_state import JobState
from coach.ledger.course import Course
from coach.recipe.model import Step

Left = TypeVar("Left")


def until_looked(
    state: JobState,
    leaves: Callable[[Step, int], Mapping[str, Left | None]],
    looked: Callable[[Course], Iterable[str]],
) -> Iterator[Left]:
    """What is left of each zone of a job.

    Args:
        state: of the job.
        leaves: what a finished step leaves of its zones, by that step and the entry of its end; None takes
            back what an earlier one left.
        looked: the zones that a step's readings tell of.
    """
    found: dict[str, Left] = {}
    ends = {record.step.number: record.done_entry or 0 for record in state.records}
    for course in state.courses():
        step = course.step
        for zone, left in leaves(step, ends[step.number]).items() if step.number in ends else ():
            if left is None:
                found.pop(zone, None)
            else:
                found[zone] = left
        for zone in looked(course):
            found.pop(zone, None)
    yield from found.values()
