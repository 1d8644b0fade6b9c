"""Metal was lost in the step in hand, and that is entered later."""

from __future__ import annotations

from coach.log.kinds.metal_lost import MetalLost
from coach.log.limits import moment
from coach.quantities.moments import told_on_the_wall
from coach.quantities.words import Words, say


class LateLoss(MetalLost):
    """A loss, in its place among what was done."""

    CALLED = "a loss of metal entered later"
    CHANGES_EARLIER = True

    taken_at: str = moment()  # when the metal was lost

    def words(self) -> Words:
        """See Body."""
        return say("{}, at {}, entered later", super().words(), told_on_the_wall(self.taken_at))
