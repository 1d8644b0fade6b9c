"""The job went back to its last finished step, whose end does not count any more; undo returns."""

from __future__ import annotations

from coach.log.kinds.done import Done
from coach.log.kinds.struck import Struck
from coach.log.limits import earlier


class WentBack(Struck):
    """The end of a step struck out to go on with that step: an entry of its own in the order of undoing."""

    CALLED = "a going back"
    SAYS = ("gone back: entry {} struck out", "entry")
    UNDONE_IN_TURN = True

    entry: int = earlier("the end of a step", lambda kind: issubclass(kind, Done))
