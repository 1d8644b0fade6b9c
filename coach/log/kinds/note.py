"""Something was written down for later."""

from __future__ import annotations

from coach.log.body import Body
from coach.log.kinds.reading import MOST_STEPS
from coach.log.limits import whole, writing
from coach.quantities.words import Words, say

LONGEST_NOTE = 2000


class Note(Body):
    """A note."""

    KIND = "note"
    CALLED = "a note"

    text: str = writing(LONGEST_NOTE)
    step: int = whole(0, MOST_STEPS)  # in hand then; 0 when every step was done

    def words(self) -> Words:
        """See Body."""
        return say("note: {}", self.text)
