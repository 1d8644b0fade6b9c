"""Whether a number that cannot be what it was entered as may have been meant for another size."""

from __future__ import annotations

from coach.bench.job_state import JobState
from coach.ledger.course import Course, Outcome, ReadingMark
from coach.ledger.following import follow
from coach.ledger.verdict import Verdict
from coach.ledger.wanting import over_from
from coach.ledger.working import LedgerError
from coach.quantities import Limits


def may_be_of(
    state: JobState, course: Course, outcome: Outcome, zone: str, dimension: str, limits: Limits
) -> bool:
    """Whether a questioned reading of a step would be good and believed as one of another size of it.

    `limits` are what is wanted of that size, mm. Of which only a least is wanted anything more is good, if it
    is possible at all.
    """
    over = over_from(state.plan, course.step, zone, dimension, limits)
    most = min(limits.high, over.high) if over is not None else limits.high
    meant = outcome.mark.reading._replace(zone=zone, dimension=dimension)
    cold = outcome.surprise.cold.size_mm if outcome.surprise is not None else meant.size_mm
    if not limits.low <= cold <= most:
        return False
    number = 1 + max(mark.entry for mark in course.marks)
    # What is questioned is left out: the same slip made at both sizes would bear itself out.
    doubted = {one.mark.entry for one in course.outcomes if one.questioned}
    marks = [*(mark for mark in course.marks if mark.entry not in doubted), ReadingMark(number, meant)]
    finished = course.step.number <= len(state.records)
    try:
        then = follow(state.plan, course.start, course.step, marks, finished=finished, doubted=course.doubted)
    except LedgerError:
        return False
    believed = (one for one in then.outcomes if one.mark.entry == number and one.counts)
    return any(one.verdict is Verdict.GOOD for one in believed)
