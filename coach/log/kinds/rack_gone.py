"""A bar lies on the rack no more."""

from __future__ import annotations

from coach.log.body import Body
from coach.log.limits import line
from coach.log.names import LONGEST_JOB


class RackGone(Body):
    """A bar that was used up, given away or put on the scrap. Struck out, it lies there again."""

    CALLED = "a bar that is gone"
    SAYS = ("{} taken off the rack", "name")
    OF_JOB = False
    OF_RACK = True

    name: str = line(LONGEST_JOB)
