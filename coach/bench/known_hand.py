"""The smith's hand as one job has taught it, for a new one to begin with."""

from __future__ import annotations

from typing import NamedTuple

from coach.bench.job_state import JobState
from coach.log.kinds.hand_known import HAND_OF_SMITH, HandKnown
from coach.log.kinds.lesson_left_out import LessonLeftOut

#: Fewer sizes, each counted as surely as it was the hand that brought it there, tell nothing (our choice).
_LEAST_TOLD = 1.0


class HandTaught(NamedTuple):
    """The hand as one job leaves it."""

    known: HandKnown
    left_out: int = 0  # the number of the entry that leaves it out; 0 where it counts
    begun: HandKnown | None = None  # the one that it began with; None for the usual


def hand_taught_by(job: str, state: JobState) -> HandTaught | None:
    """The hand as a job leaves it; None where no size told of it.

    A job of two sizes tells little, and hands on how little: what many such jobs tell together counts.

    A job begins with what those before it have taught, so that it speaks for them too: the level of a local
    level model (A. C. Harvey, Forecasting, Structural Time Series Models and the Kalman Filter, 1989, 2.3,
    from memory), which moves a little from job to job.
    """
    now = state.now
    if now is None or now.hand.sizes < _LEAST_TOLD:
        return None
    bodies = {number: one.body for number, one in state.counted.items()}
    left_out = [
        number
        for number, one in bodies.items()
        if isinstance(one, LessonLeftOut) and one.what == HAND_OF_SMITH
    ]
    before = [one for one in bodies.values() if isinstance(one, HandKnown)]
    known = now.hand.known
    hand = HandKnown(
        job=job,
        sizes=round(now.hand.sizes) + sum(one.sizes for one in before),
        scatter=known.scatter,
        scatter_doubt=known.scatter_doubt,
        habit=known.habit,
        habit_doubt=known.habit_doubt,
    )
    return HandTaught(hand, left_out[-1] if left_out else 0, before[-1] if before else None)
