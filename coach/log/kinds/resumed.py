"""The job was resumed after a rest."""

from __future__ import annotations

from coach.log.body import Body
from coach.log.status import JobStatus


class Resumed(Body):
    """The end of a rest."""

    CALLED = "the end of a rest"
    SAYS = ("resumed after a rest",)
    AFTER = JobStatus.UNDER_WAY
