"""A heat was taken that nobody marked then, and is entered later."""

from __future__ import annotations

from coach.log.kinds.heat import Heat
from coach.log.limits import flag, moment
from coach.quantities.moments import told_on_the_wall
from coach.quantities.words import Words, say


class LateHeat(Heat):
    """One heat of the step in hand, or of an earlier one, in its place among what was done."""

    CALLED = "a heat entered later"
    SAYS = ("a heat of step {}, entered later", "step")
    CHANGES_EARLIER = True
    OF_ANY_STEP = True

    taken_at: str = moment()  # when it came out of the fire, or when its step ended
    timed: bool = flag()  # whether that moment was said

    def words(self) -> Words:
        """See Body."""
        if not self.timed:
            return super().words()
        return say("a heat of step {}, at {}, entered later", self.step, told_on_the_wall(self.taken_at))
