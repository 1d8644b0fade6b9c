"""What a job has taught of the shop is left out of what new jobs begin with."""

from __future__ import annotations

from coach.log.body import Body
from coach.log.limits import line

_LONGEST_NAME = 60


class LessonLeftOut(Body):
    """A lesson of this job that the smith does not agree with. Struck out, it counts again."""

    CALLED = "a lesson that is left out"
    UNDONE_IN_TURN = False
    STANDS_APART = True
    SAYS = ("what this job taught of the shop's {} is left out", "what")

    what: str = line(_LONGEST_NAME)  # the figure, as `coach shop` names it
