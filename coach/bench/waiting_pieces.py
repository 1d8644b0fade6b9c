"""Pieces that wait while another is in hand: what was done to them counts, and waits with them."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from typing import TypeAlias

from coach.bench.file_matched import stands_now
from coach.ledger.course import Course, Mark, ReadingMark
from coach.ledger.following import follow
from coach.ledger.marked_anew import marked_anew
from coach.ledger.plan import Plan
from coach.ledger.workpiece import Workpiece
from coach.operations import Does
from coach.operations.measures import MARK
from coach.recipe.model import Recipe, Step

Waiting: TypeAlias = Mapping[int, list[Mark]]
"""What was entered for steps ahead, by their numbers."""


def waiting_apart(recipe: Recipe, done: int, waiting: Waiting) -> dict[int, list[Mark]]:
    """What was entered for steps ahead on other pieces than those that are worked on before them."""
    if not waiting:
        return {}
    found = dict[int, list[Mark]]()
    before: set[str] = set()
    for step in recipe.steps[done:]:
        if step.number in waiting and before.isdisjoint(_pieces(recipe, step)):
            found[step.number] = waiting[step.number]
        before |= _pieces(recipe, step)
    return found


def _pieces(recipe: Recipe, step: Step) -> set[str]:
    return {recipe.piece_of(zone).name for zone in step.metal}


def courses_apart(
    plan: Plan, now: Workpiece, waiting: Mapping[int, Sequence[Mark]], doubted: frozenset[int]
) -> Iterator[Course]:
    """Those steps as far as they have gone, one after the other; raises LedgerError and FormError."""
    for number in sorted(waiting):
        step = plan.recipe.steps[number - 1]
        course = follow(plan, now, step, waiting[number], finished=False, doubted=doubted)
        yield course
        now = course.now


def waits_for(recipe: Recipe, done: int, waiting: Waiting, zones: Collection[str]) -> int | None:
    """The step on a piece that waits, which zones are of that are not in hand; None where it is none."""
    if done >= len(recipe.steps) or not zones or not waiting:
        return None
    names = {recipe.piece_of(zone).name for zone in zones if zone in recipe.drawing}
    if len(names) != 1 or names & _pieces(recipe, recipe.steps[done]):
        return None
    apart = waiting_apart(recipe, done, waiting)
    return next((number for number in apart if names <= _pieces(recipe, recipe.steps[number - 1])), None)


def in_order(was: Sequence[Step], now: Sequence[Step], entered: Waiting) -> dict[int, list[Mark]]:
    """What was entered for steps ahead and in hand, with the numbers that they have now."""
    return {stands_now(was, now, one) or one: marks for one, marks in entered.items()}


def start_marked_anew(
    start: Workpiece, plan: Plan, done: Iterable[Step], in_hand: Step, marks: Sequence[Mark]
) -> Workpiece:
    """The start of the step in hand, where bars that nobody has marked yet will be marked by the new plan."""
    read = [mark.reading for mark in marks if isinstance(mark, ReadingMark)]
    marked = {one.zone for one in read if one.dimension == MARK}
    makes_marks = in_hand.does(Does.MARKS_OUT)  # until it is done, those that are not read can still be moved
    return marked_anew(start, plan, [*done, *([in_hand] if marks and not makes_marks else [])], marked)
