"""A photograph was taken that is entered later."""

from __future__ import annotations

from coach.log.kinds.photograph import Photograph
from coach.log.limits import moment
from coach.quantities.moments import told_on_the_wall
from coach.quantities.words import Words, say


class LatePhotograph(Photograph):
    """A photograph, with the moment that it was taken."""

    CALLED = "a photograph entered later"
    CHANGES_EARLIER = True
    OF_ANY_STEP = True

    taken_at: str = moment()  # when it was taken

    def words(self) -> Words:
        """See Body."""
        return say("{}, at {}, entered later", super().words(), told_on_the_wall(self.taken_at))
