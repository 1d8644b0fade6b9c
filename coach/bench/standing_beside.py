"""What was read of a size before its latest reading: what still stands, and what told no more."""

from __future__ import annotations

from coach.ledger.course import Course, Outcome
from coach.ledger.verdict import Verdict
from coach.quantities.figure import Figure, Kind


def standing_beside(outcome: Outcome, course: Course, kind: Kind) -> Figure | None:
    """The reading of the same size, cold, that counts while a later one is questioned; None without one."""
    size = outcome.mark.reading[:2]
    if not outcome.questioned or outcome.old or kind is Kind.TEST:
        return None
    earlier = next(
        (one for one in reversed(course.outcomes) if one.mark.reading[:2] == size and one.counts), None
    )
    if earlier is None:
        return None
    read_mm = earlier.mark.reading.size_mm
    return Figure(read_mm if earlier.surprise is None else earlier.surprise.cold.size_mm, kind)


def is_unsure_again(outcome: Outcome, course: Course) -> bool:
    """Whether the same gauge left a size unsure before, cold as now, and no heat has worked it since."""
    reading, entry = outcome.mark.reading, outcome.mark.entry
    if outcome.verdict is not Verdict.UNSURE or reading.hot_c is not None:
        return False
    return any(
        one.verdict is Verdict.UNSURE and one.counts and one.mark.reading.hot_c is None
        for one in course.outcomes
        if one.mark.entry < entry
        and one.mark.reading[:2] == reading[:2]
        and one.mark.reading.gauge == reading.gauge
    )
