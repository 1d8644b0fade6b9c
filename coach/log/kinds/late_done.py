"""A step was finished before that was entered."""

from __future__ import annotations

from coach.log.kinds.done import Done
from coach.log.limits import moment
from coach.quantities.moments import told_on_the_wall
from coach.quantities.words import Words, say


class LateDone(Done):
    """The end of the step in hand, with the moment that it came."""

    CALLED = "the end of a step entered later"

    taken_at: str = moment()  # when the step was finished

    def words(self) -> Words:
        """See Body."""
        return say("{}, at {}, entered later", super().words(), told_on_the_wall(self.taken_at))
