"""The readings of one round of measuring, in an order of their own: the order of typing says nothing."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from coach.ledger.course import Mark, ReadingMark
from coach.ledger.plan import Plan
from coach.ledger.weighing import MASS, SLUG
from coach.ledger.workpiece import Workpiece
from coach.operations.measures import MARK
from coach.recipe.model import Step


def in_rounds(plan: Plan, start: Workpiece, step: Step, marks: Sequence[Mark]) -> list[Mark]:
    """The marks, the readings between two others sorted: sections, then what follows from them, then masses.

    A size that is read once more begins another round: it may have been worked between.
    """
    sorted_marks: list[Mark] = []
    for one_round in _rounds(marks):
        sorted_marks += sorted(one_round, key=lambda mark: _place(plan, start, step, mark))
    return sorted_marks


def _rounds(marks: Sequence[Mark]) -> Iterator[list[Mark]]:
    gathered: list[Mark] = []
    read: set[tuple[str, str]] = set()
    for mark in marks:
        size = (mark.reading.zone, mark.reading.dimension) if isinstance(mark, ReadingMark) else None
        if size is None or size in read:
            yield gathered
            gathered, read = [], set()
        gathered.append(mark)
        if size is None:
            yield gathered
            gathered = []
        else:
            read.add(size)
    yield gathered


def _place(plan: Plan, start: Workpiece, step: Step, mark: Mark) -> tuple[int, str, str]:
    if not isinstance(mark, ReadingMark):
        return 0, "", ""
    zone, dimension = mark.reading.zone, mark.reading.dimension
    if dimension in (MASS, SLUG):
        return 2, zone, dimension
    stage = plan.by_step[step.number].get(zone)
    free = stage.after.free if stage is not None else start.zones[zone].free
    goes_with = stage is not None and stage.after.leader(dimension) != dimension
    return int(dimension in (free, MARK)), f"{zone} {goes_with}", dimension
