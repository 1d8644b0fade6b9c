"""An entry was struck out; striking a strike brings back what it struck."""

from __future__ import annotations

from coach.log.body import Body
from coach.log.limits import earlier
from coach.quantities.words import Words, say


class Struck(Body):
    """An entry that does not count any more."""

    KIND = "struck"
    CALLED = "a strike"
    UNDONE_IN_TURN = False
    CHANGES_EARLIER = True

    entry: int = earlier("an entry that can be struck out", lambda kind: kind.CAN_BE_STRUCK)

    def words(self) -> Words:
        """See Body."""
        return say("entry {} struck out", self.entry)
