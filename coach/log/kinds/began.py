"""A job was begun: the recipe frozen into it."""

from __future__ import annotations

from collections.abc import Mapping

from coach.log.body import Body
from coach.log.limits import LONGEST_LINE, line, one_of, texts, writing

#: A recipe's file is at most a quarter of this; read, it holds each of its words a few times.
LONGEST_RECIPE = 1_000_000
_MOST_GRADES = 100
_LONGEST_GRADE = 100_000


class Began(Body):
    """The first entry of every job."""

    CALLED = "the beginning of a job"
    SAYS = ("began {}", "title")
    BEGINS = True
    CAN_BE_STRUCK = False
    UNDONE_IN_TURN = False

    title: str = line()
    text: str = writing(LONGEST_RECIPE, least=0)  # of the recipe's file
    source: str = writing(4 * LONGEST_LINE, least=0)  # where it was
    recipe: str = writing(LONGEST_RECIPE, least=0)  # as it was read: JSON, whose order is the smith's own
    coach: str = line()  # the version that began it
    units: str = one_of("mm", "in")
    grades: Mapping[str, str] = texts(_MOST_GRADES, _LONGEST_GRADE)  # the smith's own, as they were then
