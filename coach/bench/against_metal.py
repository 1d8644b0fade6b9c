"""Readings that were stood by though no work of their step could make the size: they contradict the metal."""

from __future__ import annotations

from collections.abc import Collection, Iterator

from coach.bench.job_state import JobState
from coach.forms import label
from coach.ledger.course import Course, Outcome
from coach.ledger.workpiece import Workpiece
from coach.quantities import Words, mm, say

_TOLD = (
    "{} was read as {:=}, which contradicts the metal: step {} cannot make it {} than {}. Measure it again, "
    "before all else"
)


def against_metal(state: JobState, measured: Collection[tuple[str, str]]) -> dict[tuple[str, str], Words]:
    """What contradicts the metal, by zone and dimension; what is told of each has no stop at its end.

    `measured` are the sizes, by zone and dimension, that were read since they were last worked. What the
    metal makes of a length in a section that only seems to be so is no contradiction: the section may be
    another one.
    """
    if state.now is None:
        return {}
    return {size: told for size, told in _stood_by(state, state.now) if _has(state.now, size, measured)}


def is_against_metal(outcome: Outcome) -> bool:
    """Whether a reading counts that no work of its step could make.

    Not one of the size that the metal settles: there may be more or less metal than was thought.
    """
    bound = outcome.bound
    return outcome.counts and bound is not None and not (bound.in_section or bound.of_metal)


def _stood_by(state: JobState, now: Workpiece) -> Iterator[tuple[tuple[str, str], Words]]:
    for course, last in _last_read(state).values():
        reading, bound = last.mark.reading, last.bound
        if bound is None or not is_against_metal(last) or not now.zones[reading.zone].has_form:
            continue
        side = "less" if bound.is_least else "more"
        size = reading.zone, reading.dimension
        yield (
            size,
            say(_TOLD, label(*size), mm(reading.size_mm), course.step.number, side, mm(bound.size_mm)),
        )


def _last_read(state: JobState) -> dict[tuple[str, str], tuple[Course, Outcome]]:
    """The reading of each size that was taken last, and the step it was taken in."""
    return {
        (one.mark.reading.zone, one.mark.reading.dimension): (course, one)
        for course in state.courses()
        for one in course.outcomes
    }


def _has(now: Workpiece, size: tuple[str, str], measured: Collection[tuple[str, str]]) -> bool:
    """Whether a size is among those, by its own name or by that which it is one with."""
    zone, dimension = size
    return size in measured or (zone, now.zones[zone].shape.one_with(dimension)) in measured
