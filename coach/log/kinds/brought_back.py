"""A job that was set aside was brought back among the others."""

from __future__ import annotations

from coach.log.body import Body
from coach.log.status import JobStatus


class BroughtBack(Body):
    """A job that is not set aside any more."""

    CALLED = "a bringing back"
    AFTER = JobStatus.UNDER_WAY
