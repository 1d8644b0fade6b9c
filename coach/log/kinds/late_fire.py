"""The piece went back in the fire at an hour that is entered later."""

from __future__ import annotations

from coach.log.kinds.fire import BackInFire
from coach.log.limits import moment
from coach.quantities.moments import told_on_the_wall
from coach.quantities.words import Words, say


class LateFire(BackInFire):
    """The beginning of a soak of the step in hand, or of an earlier one, in its place among what was done."""

    CALLED = "a going in the fire entered later"
    CHANGES_EARLIER = True
    OF_ANY_STEP = True

    taken_at: str = moment()  # when it went in

    def words(self) -> Words:
        """See Body."""
        return say("in the fire at step {}, at {}, entered later", self.step, told_on_the_wall(self.taken_at))
