"""A job whose bars have other zones from now on: what was believed and read of them goes over to those."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from coach.bench.job_state import JobState, StepRecord
from coach.ledger.course import Course, Mark, Outcome, ReadingMark
from coach.ledger.parted_anew import PartedAnew, parted_anew
from coach.operations.measures import MARK
from coach.recipe.model import Recipe, Step


def state_parted_anew(state: JobState, parted: PartedAnew) -> None:
    """Bring all that is known before the step in hand over to the zones of the plan that is followed now."""
    recipe = state.plan.recipe
    state.held_against = state.plan
    steps = zip(state.records, recipe.steps, strict=False)
    state.records = [_record(record, step, state, parted) for record, step in steps]
    state.marks = list(_marks(state.marks, recipe, parted))
    state.waiting = {number: list(_marks(marks, recipe, parted)) for number, marks in state.waiting.items()}
    if state.start is not None:
        state.start = parted_anew(state.start, state.plan, parted)


def _record(record: StepRecord, step: Step, state: JobState, parted: PartedAnew) -> StepRecord:
    marks = tuple(_marks(record.marks, state.plan.recipe, parted))
    course = record.course
    if course is not None:
        course = _course(course, step, state, parted)
    return record._replace(step=step, marks=marks, course=course)


def _course(course: Course, step: Step, state: JobState, parted: PartedAnew) -> Course:
    recipe = state.plan.recipe
    outcomes: list[Outcome] = []
    for one in course.outcomes:
        for mark in _marks([one.mark], recipe, parted):
            if isinstance(mark, ReadingMark):
                outcomes.append(one._replace(mark=mark))
    return course._replace(
        step=step,
        start=parted_anew(course.start, state.plan, parted),
        now=parted_anew(course.now, state.plan, parted),
        outcomes=tuple(outcomes),
        marks=tuple(_marks(course.marks, recipe, parted)),
        scaling={zone: form for zone, form in course.scaling.items() if zone in recipe.drawing},
    )


def _marks(marks: Sequence[Mark], recipe: Recipe, parted: PartedAnew) -> Iterator[Mark]:
    """The marks that still say something; one of a zone that has another name by now says it of that."""
    for mark in marks:
        if not isinstance(mark, ReadingMark) or mark.reading.zone in recipe.pieces:
            yield mark
            continue
        zone, there = mark.reading.zone, parted.zones_of(mark.reading.zone)
        if _is_one(zone, parted):
            yield mark._replace(reading=mark.reading._replace(zone=there[0]))
        elif zone in recipe.drawing and (there == (zone,) or mark.reading.dimension != MARK):
            yield mark


def _is_one(zone: str, parted: PartedAnew) -> bool:
    """Whether a zone is one as it was, under another name."""
    return any(one.was == (zone,) and len(one.now) == 1 for one in parted.stretches)
