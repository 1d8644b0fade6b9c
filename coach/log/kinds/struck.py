"""An entry was struck out; striking a strike brings back what it struck."""

from __future__ import annotations

from coach.log.body import Body
from coach.log.limits import earlier


class Struck(Body):
    """An entry that does not count any more."""

    CALLED = "a strike"
    SAYS = ("entry {} struck out", "entry")
    OF_RACK = True
    UNDONE_IN_TURN = False
    CHANGES_EARLIER = True

    entry: int = earlier("an entry that can be struck out", lambda kind: kind.CAN_BE_STRUCK)
