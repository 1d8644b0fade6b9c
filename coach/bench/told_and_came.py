"""What a shop was told of its jobs while they were made, held against what came of them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import pairwise
from typing import NamedTuple

from coach.bench.job_state import JobState
from coach.bench.replay import apply
from coach.bench.sizes_came import SizeCame, SizeVerdict
from coach.ledger.workpiece import at_stock
from coach.log.kinds.done import Done
from coach.log.kinds.hand_known import HandKnown
from coach.log.kinds.shop_known import ShopKnown

#: What was told is put together by these bounds (our choice).
_BOUNDS = (0.0, 0.5, 0.8, 0.95, 1.0)
_MISSED = (SizeVerdict.UNDER, SizeVerdict.OVER, SizeVerdict.LET_GO)
_OPEN = (SizeVerdict.NOT_MEASURED, SizeVerdict.NOT_SURE, SizeVerdict.TO_COME)


class ToldOfJob(NamedTuple):
    """One finished job."""

    job: str
    told: tuple[float, ...]  # that it will pass, as it began and at the end of each step but the last
    came: bool  # whether every size came inside the drawing


class ToldAndCame(NamedTuple):
    """Jobs that were told chances between two bounds; each counts once."""

    low: float
    high: float
    jobs: int
    told: float  # the mean of what they were told
    came: int  # so many of them came inside the drawing


def came_of(sizes: Iterable[SizeCame]) -> bool | None:
    """Whether every size came inside the drawing; None where one that decides it was not measured surely."""
    verdicts = {one.verdict for one in sizes}
    if verdicts & {*_MISSED}:
        return False
    return None if verdicts & {*_OPEN} or not verdicts else True


def told_of(job: str, state: JobState, sizes: Iterable[SizeCame]) -> ToldOfJob | None:
    """What was told of a finished job; None of another, and where it is not sure what came of it."""
    came = came_of(sizes)
    if state.step is not None or came is None:
        return None
    return ToldOfJob(job, tuple(_told(state)), came)


def _told(now: JobState) -> Iterator[float]:
    plan = now.first_plan
    state, began = JobState(plan, plan, start=at_stock(plan)), False
    for entry in now.counted.values():
        known = isinstance(entry.body, HandKnown | ShopKnown) or entry.number == 1
        if not known and not began:
            began = True
            yield from _chance(state)
        apply(state, entry)
        if isinstance(entry.body, Done) and state.step is not None:
            yield from _chance(state)


def _chance(state: JobState) -> Iterator[float]:
    found = state.forecast()
    if found is not None and not found.trouble and found.will_pass is not None:
        yield found.will_pass.chance


def told_and_came(jobs: Iterable[ToldOfJob]) -> tuple[ToldAndCame, ...]:
    """Jobs by what they were told; one that was told chances of several bounds counts once in each."""
    jobs, found = list(jobs), []
    for low, high in pairwise(_BOUNDS):
        inside = [
            (sum(told) / len(told), one.came)
            for one in jobs
            if (told := [p for p in one.told if low <= p < high or p == high == _BOUNDS[-1]])
        ]
        if inside:
            mean = sum(told for told, _ in inside) / len(inside)
            found.append(ToldAndCame(low, high, len(inside), mean, sum(came for _, came in inside)))
    return tuple(found)
