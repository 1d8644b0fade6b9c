"""The job was put down until another time."""

from __future__ import annotations

from coach.log.body import Body
from coach.log.limits import LONGEST_LINE, flag, saying
from coach.log.status import JobStatus
from coach.quantities.words import NOTHING, Words, run_on, say


class Rested(Body):
    """A rest."""

    CALLED = "a rest"
    AFTER = JobStatus.RESTING

    forced: bool = flag()  # against advice
    reason: Words = saying(4 * LONGEST_LINE, least=0)  # the advice

    def words(self) -> Words:
        """See Body."""
        against = say(" against advice: {}", self.reason) if self.forced else NOTHING
        return run_on(["put down to rest", against], between="")
