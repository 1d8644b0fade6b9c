"""A heat was taken: out of the fire, and the work done until it goes back."""

from __future__ import annotations

from typing import ClassVar

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

    FIRE_WAS_OUT: ClassVar[bool] = False
    """Whether the fire had gone out since it went in: how long it lay there was not hot."""

    step: int = step_number()
