"""Lengths that were stood by against the reckoning, and the size of their section that would decide."""

from __future__ import annotations

from collections.abc import Collection, Iterable

from coach.bench.job_state import JobState
from coach.bench.verdicts import AtOdds
from coach.ledger.course import Course, Outcome, asked_names
from coach.ledger.finishing import as_if_finished
from coach.ledger.reading import cold_reading
from coach.ledger.verdict import SizeState
from coach.ledger.workpiece import Workpiece, size_name
from coach.ledger.zone_forecast import FinishedSize
from coach.quantities.figure import Figure, mm


def at_odds(
    state: JobState, sizes: Iterable[FinishedSize], measured: Collection[tuple[str, str]]
) -> dict[tuple[str, str], AtOdds]:
    """Sizes that the metal makes, were read outside of the drawing, and against all that is known of them.

    Each, by zone and dimension, with the size of its section, as `coach read` takes it, that its step worked
    and nobody has read since: the one that is known the least. `measured` are the sizes that were read since
    they were last worked.
    """
    now, found = state.now, {}
    for size in sizes:
        had = now.zones.get(size.zone) if now is not None else None
        if now is None or had is None or not had.has_form or size.dimension != had.free:
            continue
        if size.state is SizeState.GOOD or (size.zone, size.dimension) not in measured:
            continue
        course = _read_in(state, size)
        if course is not None and _is_odd(state, course, size):
            read = {size_name(size.zone, had.leader(name)) for zone, name in measured if zone == size.zone}
            asked = asked_names(state.plan, course.step)
            unread = [name for name in sorted(asked - read) if name.rsplit(".", 1)[0] == size.zone]
            if unread := [name for name in unread if name in now.belief]:
                decides = max(unread, key=lambda name: _share_in_doubt(now, name))
                found[size.zone, size.dimension] = AtOdds(decides, _read_as(course, size))
    return found


def _read_in(state: JobState, size: FinishedSize) -> Course | None:
    """The step in which a size was read last."""
    courses = (one for one in reversed(state.courses()) if one.last(size.zone, size.dimension) is not None)
    return next(courses, None)


def _read_as(course: Course, size: FinishedSize) -> Figure:
    """What was read of a size last, cold; what it comes to where it was not read."""
    last = course.last(size.zone, size.dimension)
    cold = cold_reading(last.mark.reading) if last is not None else None
    return mm(cold.size_mm, cold.doubt_mm) if cold is not None else size.expected


def _is_odd(state: JobState, course: Course, size: FinishedSize) -> bool:
    """Whether a size as it was read last is none that the step was to leave it at."""
    ended = as_if_finished(state.plan, course) if course.step is state.step else course
    last = ended.last(size.zone, size.dimension)
    if last is None or not last.counts or last.surprise is None or not last.surprise.questioned:
        return False
    return _was_read_outside(size, last)


def _was_read_outside(size: FinishedSize, last: Outcome) -> bool:
    """Whether the reading itself may lie on that side of the drawing on which the finished size comes out.

    A length read while its metal is still being drawn is none of the finished size.
    """
    cold = cold_reading(last.mark.reading)
    if size.state is SizeState.UNDER:
        return cold.size_mm - cold.doubt_mm < size.wanted.limits.low
    return cold.size_mm + cold.doubt_mm > size.wanted.limits.high


def _share_in_doubt(now: Workpiece, name: str) -> float:
    return now.belief.doubt(name) / now.belief.mean(name)
