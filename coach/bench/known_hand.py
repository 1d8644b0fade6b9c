"""The smith's hand as the jobs before have taught it, for a new one to begin with."""

from __future__ import annotations

from itertools import islice

from coach.bench.beginnings import Plans, beginning_of
from coach.bench.replay import replay
from coach.log.jobs import Log
from coach.log.kinds.hand_known import HAND_OF_SMITH, LEAST_SIZES, HandKnown
from coach.log.kinds.lesson_left_out import LessonLeftOut
from coach.log.kinds.reading import Reading

#: So many jobs are looked at, those first that were last touched (our choice).
_MOST_JOBS = 3


def known_hand(log: Log, plans: Plans, but: str) -> HandKnown | None:
    """The hand as the last job has left it in which enough sizes were read; None where there is none.

    That job began with what those before it had taught, so that it speaks for them too: the level of a local
    level model (A. C. Harvey, Forecasting, Structural Time Series Models and the Kalman Filter, 1989, 2.3,
    from memory), which moves a little from job to job.
    """
    others = (one.job for one in log.latest_first() if one.job != but)
    for job in islice(others, _MOST_JOBS):
        try:
            found = _taught_by(log, plans, job)
        except Exception:  # whatever another job may be, this one begins
            continue
        if found is not None:
            return found
    return None


def _taught_by(log: Log, plans: Plans, job: str) -> HandKnown | None:
    entries = log.entries(job)
    if sum(isinstance(one.body, Reading) for one in entries) < LEAST_SIZES:
        return None  # and nothing of it need be reckoned
    state = replay(plans.of(job, beginning_of(entries)), entries)
    now = state.now
    bodies = [one.body for one in state.counted.values()]
    if now is None or now.hand.sizes < LEAST_SIZES:
        return None
    if any(isinstance(one, LessonLeftOut) and one.what == HAND_OF_SMITH for one in bodies):
        return None
    before = (one.sizes for one in bodies if isinstance(one, HandKnown))
    known = now.hand.known
    return HandKnown(
        job=job,
        sizes=round(now.hand.sizes) + sum(before),
        scatter=known.scatter,
        scatter_doubt=known.scatter_doubt,
        habit=known.habit,
        habit_doubt=known.habit_doubt,
    )
