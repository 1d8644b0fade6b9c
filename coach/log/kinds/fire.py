"""The piece went back in the fire: its soaking begins."""

from __future__ import annotations

from coach.log.body import Body
from coach.log.kinds.reading import MOST_STEPS
from coach.log.limits import whole
from coach.log.status import JobStatus
from coach.quantities.words import Words, as_words


class BackInFire(Body):
    """The beginning of a soak."""

    KIND = "fire"
    CALLED = "a going back in the fire"
    AFTER = JobStatus.UNDER_WAY

    step: int = whole(1, MOST_STEPS)

    def words(self) -> Words:
        """See Body."""
        return as_words("back in the fire")
