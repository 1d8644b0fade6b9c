"""Something on the list was put right."""

from __future__ import annotations

from coach.log.body import Body
from coach.log.limits import earlier


class PutRight(Body):
    """What is right now: a thing that was noted, a test that had not passed, a heat too many or too few."""

    CALLED = "a putting right"
    STANDS_APART = True
    SAYS = ("entry {} put right", "entry")

    entry: int = earlier(
        "a reading, a heat, the end of a step or a thing to put right", lambda kind: kind.CAN_BE_PUT_RIGHT
    )
