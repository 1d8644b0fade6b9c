"""One of a job's pieces is made no more: from here on nothing of the drawing is asked of it."""

from __future__ import annotations

from coach.log.kinds.amended import Amended
from coach.log.limits import LONGEST_NAME, line, step_number


class GivenUp(Amended):
    """The steps ahead without those on that piece, which lies there as what is left of its bar."""

    CALLED = "a piece given up"

    step: int = step_number()  # in hand then; 0 once every step is done
    piece: str = line(LONGEST_NAME)
