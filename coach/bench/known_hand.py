"""The smith's hand as one job has taught it, for a new one to begin with."""

from __future__ import annotations

from coach.bench.job_state import JobState
from coach.log.kinds.hand_known import HAND_OF_SMITH, LEAST_SIZES, HandKnown
from coach.log.kinds.lesson_left_out import LessonLeftOut


def hand_taught_by(job: str, state: JobState) -> HandKnown | None:
    """The hand as a job leaves it; None where too few sizes were read in it, or where a smith leaves it out.

    A job begins with what those before it have taught, so that it speaks for them too: the level of a local
    level model (A. C. Harvey, Forecasting, Structural Time Series Models and the Kalman Filter, 1989, 2.3,
    from memory), which moves a little from job to job.
    """
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
