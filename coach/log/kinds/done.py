"""A step was finished."""

from __future__ import annotations

from coach.log.body import Body
from coach.log.kinds.reading import MOST_STEPS
from coach.log.limits import flag, whole
from coach.log.status import JobStatus
from coach.quantities.words import Words, say

MOST_HEATS = 200


class Done(Body):
    """The end of a step."""

    KIND = "done"
    CALLED = "the end of a step"
    AFTER = JobStatus.UNDER_WAY
    MOVES_METAL = True

    step: int = whole(1, MOST_STEPS)
    heats: int = whole(0, MOST_HEATS)
    marked: bool = flag()  # whether those were the heats marked: then they are counted again

    def words(self) -> Words:
        """See Body."""
        if not self.heats:
            return say("step {} done", self.step)
        return say("step {} done in {} heat{}", self.step, self.heats, "" if self.heats == 1 else "s")
