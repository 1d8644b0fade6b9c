"""The job was resumed after a rest."""

from __future__ import annotations

from coach.log.body import Body
from coach.log.status import JobStatus
from coach.quantities.words import Words, as_words


class Resumed(Body):
    """The end of a rest."""

    KIND = "resumed"
    CALLED = "the end of a rest"
    AFTER = JobStatus.UNDER_WAY

    def words(self) -> Words:
        """See Body."""
        return as_words("resumed after a rest")
