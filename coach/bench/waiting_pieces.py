"""Pieces that wait while another is in hand: what was done to them counts, and waits with them."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from typing import TYPE_CHECKING

from coach.bench.file_matched import stands_now
from coach.ledger.course import Course, Mark, ReadingMark
from coach.ledger.following import follow
from coach.ledger.marked_anew import marked_anew
from coach.ledger.plan import Plan
from coach.ledger.workpiece import Workpiece
from coach.recipe.model import Recipe, Step

if TYPE_CHECKING:
    from coach.bench.replay import JobState


def waiting_apart(state: JobState) -> dict[int, list[Mark]]:
    """What was entered for steps ahead on other pieces than those that are worked on before them."""
    if not state.waiting:
        return {}
    recipe, found = state.plan.recipe, dict[int, list[Mark]]()
    before: set[str] = set()
    for step in recipe.steps[len(state.records) :]:
        if step.number in state.waiting and before.isdisjoint(_pieces(recipe, step)):
            found[step.number] = state.waiting[step.number]
        before |= _pieces(recipe, step)
    return found


def _pieces(recipe: Recipe, step: Step) -> set[str]:
    zones = {*step.zones, *step.heated, *([step.lays] if step.lays else [])}
    return {recipe.piece_of(zone).name for zone in zones}


def courses_apart(
    plan: Plan, now: Workpiece, waiting: Mapping[int, Sequence[Mark]], doubted: frozenset[int]
) -> Iterator[Course]:
    """Those steps as far as they have gone, one after the other; raises LedgerError and FormError."""
    for number in sorted(waiting):
        step = plan.recipe.steps[number - 1]
        course = follow(plan, now, step, waiting[number], finished=False, doubted=doubted)
        yield course
        now = course.now


def waits_for(state: JobState, zones: Collection[str]) -> int | None:
    """The step on a piece that waits, which zones are of that are not in hand; None where it is none."""
    step = state.step
    if step is None or not zones or not state.waiting:
        return None
    recipe = state.plan.recipe
    names = {recipe.piece_of(zone).name for zone in zones if zone in recipe.drawing}
    if len(names) != 1 or names & _pieces(recipe, step):
        return None
    return next(
        (number for number in waiting_apart(state) if names <= _pieces(recipe, recipe.steps[number - 1])),
        None,
    )


def wait_in_order(state: JobState, was: Sequence[Step]) -> None:
    """What was entered for steps ahead stays with them where they have other numbers now."""
    number = len(state.records) + 1
    held = {number: state.marks, **state.waiting} if state.marks else {**state.waiting}
    steps = state.plan.recipe.steps
    moved = {one: stands_now(was, steps, one) or one for one in held}
    waiting = {moved[one]: marks for one, marks in held.items()}
    state.marks = waiting.pop(number, [])
    state.waiting = waiting


def start_marked_anew(state: JobState) -> Workpiece | None:
    """The start of the step in hand, where bars that nobody has marked yet will be marked by the new plan."""
    if state.start is None or state.step is None:
        return state.start
    read = [mark.reading for mark in state.marks if isinstance(mark, ReadingMark)]
    entered = [(one.zone, one.dimension) for one in read] or [("", "")] * len(state.marks)
    done = (one.step for one in state.records)
    return marked_anew(state.start, state.plan, done, state.step, entered)
