"""A job was begun before it was entered: when that was."""

from __future__ import annotations

from coach.log.body import Body
from coach.log.limits import moment
from coach.quantities.moments import told_on_the_wall
from coach.quantities.words import Words, say


class BegunBefore(Body):
    """The moment that work on a job began, where it was worked first and entered afterwards."""

    CALLED = "the hour that a job was begun"
    UNDONE_IN_TURN = False

    began_at: str = moment()  # when the work began

    def words(self) -> Words:
        """See Body."""
        return say("begun at {}, entered later", told_on_the_wall(self.began_at))
