"""A way back was taken in the step in hand, and that is entered later."""

from __future__ import annotations

from coach.log.kinds.way_back import WayBackTaken
from coach.log.limits import moment
from coach.quantities.moments import told_on_the_wall
from coach.quantities.words import Words, say


class LateWayBack(WayBackTaken):
    """A way back, in its place among what was done."""

    CALLED = "a way back entered later"
    CHANGES_EARLIER = True

    taken_at: str = moment()  # when it was taken

    def words(self) -> Words:
        """See Body."""
        return say("{}, at {}, entered later", super().words(), told_on_the_wall(self.taken_at))
