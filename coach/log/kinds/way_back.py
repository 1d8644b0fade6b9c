"""A way back onto plan was taken: from here on the job follows another plan."""

from __future__ import annotations

from typing import ClassVar

from coach.log.amends import Amends
from coach.log.limits import LONGEST_LINE, LONGEST_NAME, line, saying
from coach.quantities.words import Words


class WayBackTaken(Amends):
    """A way back, with all that it changes."""

    TO_HAFT: ClassVar = "fit-the-haft"  # the name of the one by which an eye is worked to a haft

    CALLED = "a way back"
    SAYS = ("way back: {}", "title")
    CAN_BE_PUT_RIGHT = True  # where another is cut in place of one that is the end of its bar still

    name: str = line(LONGEST_NAME)
    caution: Words = saying(4 * LONGEST_LINE, least=0)  # what to take care of with it; empty for nothing
