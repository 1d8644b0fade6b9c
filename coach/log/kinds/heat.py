"""A heat was taken: out of the fire, and the work done until it goes back."""

from __future__ import annotations

from coach.log.body import Body
from coach.log.kinds.reading import MOST_STEPS
from coach.log.limits import whole
from coach.log.status import JobStatus


class Heat(Body):
    """One heat of a step."""

    KIND = "heat"
    CALLED = "a heat"
    AFTER = JobStatus.UNDER_WAY
    MOVES_METAL = True

    step: int = whole(1, MOST_STEPS)
