"""The piece went back in the fire: its soaking begins."""

from __future__ import annotations

from coach.log.body import Body
from coach.log.limits import step_number
from coach.log.status import JobStatus


class BackInFire(Body):
    """The beginning of a soak."""

    CALLED = "a going back in the fire"
    SAYS = ("back in the fire",)
    AFTER = JobStatus.UNDER_WAY

    step: int = step_number()
