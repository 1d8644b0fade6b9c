"""The job was put out of the way, below the others in the shop's list."""

from __future__ import annotations

from coach.log.body import Body
from coach.log.status import JobStatus


class SetAside(Body):
    """A job put out of the way."""

    CALLED = "a setting aside"
    AFTER = JobStatus.SET_ASIDE
