"""The marks of a step in rounds: what was read with no work between is one account, in whatever order."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from itertools import groupby
from typing import Final

from coach.ledger.course import Mark, ReadingMark
from coach.ledger.plan import Plan
from coach.ledger.reading import cold_reading
from coach.ledger.workpiece import Workpiece
from coach.operations.measures import MARK, MASS, SLUG
from coach.recipe.model import Step

_Size = tuple[str, str]

#: A size that is read again as near to what it was as this many standard uncertainties of one reading is the
#: same, and no work was done on it between (judgement).
_SAME_WITHIN: Final = 1.0


def in_rounds(
    plan: Plan, start: Workpiece, step: Step, marks: Sequence[Mark], ignored: Collection[int] = ()
) -> list[list[Mark]]:
    """The marks in rounds, the readings of each sorted: sections, then what follows from them, then masses.

    A size that is read once more begins another round: it may have been worked between. Where each that was
    is still where it was, as near as its gauge can tell, none was, and all is one round. The entries that are
    `ignored` are readings in question: they say nothing of work.
    """
    rounds: list[list[Mark]] = [[]]
    for is_read, some in groupby(marks, key=lambda mark: isinstance(mark, ReadingMark)):
        if not is_read:
            for mark in some:
                rounds += [[mark], []]
            continue
        readings = [mark for mark in some if isinstance(mark, ReadingMark)]
        rounds[-1:] = _parted(readings, ignored, is_worked=_shows_work(plan, start, step, readings, ignored))
    return [sorted(each, key=lambda mark: _place(plan, start, step, mark)) for each in rounds]


def _parted(
    readings: Sequence[ReadingMark], ignored: Collection[int], *, is_worked: bool
) -> list[list[Mark]]:
    """The readings between two heats, from each on that is read once more."""
    rounds: list[list[Mark]] = [[]]
    read: set[_Size] = set()
    for mark in readings:
        size = mark.reading.zone, mark.reading.dimension
        if is_worked and size in read and mark.entry not in ignored:
            rounds.append([])
            read.clear()
        rounds[-1].append(mark)
        if mark.entry not in ignored:
            read.add(size)
    return rounds


def _shows_work(
    plan: Plan, start: Workpiece, step: Step, readings: Sequence[ReadingMark], ignored: Collection[int]
) -> bool:
    """Whether one that was read once more is not where it was; so is what is no size of the metal."""
    read: dict[_Size, float] = {}
    for mark in readings:
        if mark.entry in ignored:
            continue
        zone, dimension = size = mark.reading.zone, mark.reading.dimension
        if dimension == MARK:
            continue  # made anew or read once more: no work moves it, and of two the later is there
        stage, there = plan.by_step[step.number].get(zone), start.zones.get(zone)
        state = stage.after if stage is not None else there
        if state is None or dimension not in state.shape.dimensions:
            if size in read and not (dimension in (MASS, SLUG) and read[size] == mark.reading.size_mm):
                return True
            read[size] = mark.reading.size_mm
            continue
        cold = cold_reading(mark.reading)
        if abs(read.setdefault(size, cold.size_mm) - cold.size_mm) > _SAME_WITHIN * cold.chance_mm:
            return True
    return False


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
