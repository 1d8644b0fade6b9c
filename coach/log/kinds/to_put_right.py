"""Something was put on the list to put right."""

from __future__ import annotations

from coach.log.body import Body
from coach.log.limits import LONGEST_NAME, line, step_number
from coach.quantities.words import Words, say

LONGEST_FAULT = 400


class ToPutRight(Body):
    """What is not as it should be."""

    CALLED = "a thing to put right"
    CAN_BE_PUT_RIGHT = True
    STANDS_APART = True

    text: str = line(LONGEST_FAULT)
    zone: str = line(LONGEST_NAME, least=0)  # empty where it is the whole piece
    step: int = step_number(least=0)  # in hand then; 0 when every step was done

    def words(self) -> Words:
        """See Body."""
        return say("to put right: {}{}", f"{self.zone}: " if self.zone else "", self.text)
