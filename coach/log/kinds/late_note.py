"""Something was written down that is entered later."""

from __future__ import annotations

from coach.log.kinds.note import Note
from coach.log.limits import moment
from coach.quantities.moments import told_on_the_wall
from coach.quantities.words import Words, say


class LateNote(Note):
    """A note, with the moment that it is of."""

    CALLED = "a note entered later"
    CHANGES_EARLIER = True
    OF_ANY_STEP = True

    taken_at: str = moment()  # when it was written down

    def words(self) -> Words:
        """See Body."""
        return say("{}, at {}, entered later", super().words(), told_on_the_wall(self.taken_at))
