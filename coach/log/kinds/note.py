"""Something was written down for later."""

from __future__ import annotations

from coach.log.body import Body
from coach.log.limits import step_number, writing

LONGEST_NOTE = 2000


class Note(Body):
    """A note."""

    CALLED = "a note"
    STANDS_APART = True
    SAYS = ("note: {}", "text")

    text: str = writing(LONGEST_NOTE)
    step: int = step_number(least=0)  # in hand then; 0 when every step was done
