"""The blows of a heat were counted."""

from __future__ import annotations

from coach.log.body import Body
from coach.log.kinds.heat import Heat
from coach.log.limits import earlier, whole
from coach.quantities.words import Words, counted, say

#: No heat has more: five minutes under a quick power hammer (our choice).
MOST_BLOWS = 2000


class BlowsCounted(Body):
    """So many blows were struck in a heat; of several counts of one the last is meant."""

    CALLED = "a counted heat"
    STANDS_APART = True

    entry: int = earlier("a heat", lambda kind: issubclass(kind, Heat))
    blows: int = whole(1, MOST_BLOWS)

    def words(self) -> Words:
        """See Body."""
        return say("{} in the heat of entry {}", counted(self.blows, "blow"), str(self.entry))
