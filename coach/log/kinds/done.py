"""A step was finished."""

from __future__ import annotations

from coach.log.body import Body
from coach.log.limits import flag, step_number, whole
from coach.log.status import JobStatus
from coach.quantities.words import NOTHING, Words, counted, say

MOST_HEATS = 200


class Done(Body):
    """The end of a step."""

    CALLED = "the end of a step"
    AFTER = JobStatus.UNDER_WAY
    IS_WEIGHED = True
    IS_WORK = True
    MOVES_METAL = True
    CAN_BE_PUT_RIGHT = True  # of a treatment that lacks some of its heats

    step: int = step_number()
    heats: int = whole(0, MOST_HEATS)
    marked: bool = flag()  # whether those were the heats marked: then they are counted again
    told: bool = flag()  # whether a smith said so many; else they are those marked, or the planned ones

    def words(self) -> Words:
        """See Body."""
        heats = say(" in {}", counted(self.heats, "heat")) if self.heats else NOTHING
        return say("step {} done{}", self.step, heats)
