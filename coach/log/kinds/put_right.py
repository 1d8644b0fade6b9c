"""Something on the list was put right."""

from __future__ import annotations

from coach.log.body import Body
from coach.log.limits import earlier
from coach.quantities.words import Words, say


class PutRight(Body):
    """What is right now: a thing that was noted, or a test that had not passed."""

    KIND = "put right"
    CALLED = "a putting right"

    entry: int = earlier("a reading or a thing to put right", lambda kind: kind.CAN_BE_PUT_RIGHT)

    def words(self) -> Words:
        """See Body."""
        return say("entry {} put right", self.entry)
