"""A heat was taken: out of the fire, and the work done until it goes back."""

from __future__ import annotations

from coach.log.body import Body
from coach.log.limits import step_number
from coach.log.status import JobStatus


class Heat(Body):
    """One heat of a step."""

    CALLED = "a heat"
    AFTER = JobStatus.UNDER_WAY
    MOVES_METAL = True
    IS_WORK = True
    CAN_BE_PUT_RIGHT = True  # where it led to a second quench

    step: int = step_number()
