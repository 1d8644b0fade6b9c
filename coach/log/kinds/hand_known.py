"""How true the smith's hand works, as another job has taught it: what a new job begins with."""

from __future__ import annotations

from coach.log.body import Body
from coach.log.kinds.shop_known import figure_of_shop
from coach.log.limits import line, number, whole
from coach.log.names import LONGEST_JOB
from coach.quantities.figure import Figure, Kind
from coach.quantities.words import Words, counted, say

#: No hand scatters less or more than so many times the usual one, and none is known better than the one, or
#: stops further off than the other, in half widths of the limits (our choice).
_LEAST_TIMES, _MOST_TIMES, _LEAST_DOUBT, _FURTHEST = 0.2, 5.0, 0.001, 4.0
_MOST_SIZES = 1_000_000
HAND_OF_SMITH = "hand"
"""What it is called among the figures of a shop."""
LEAST_SIZES = 5
"""A job in which fewer sizes were read teaches nothing: nobody has followed it (judgement)."""


class HandKnown(Body):
    """A hand that is known from another job. Struck out, the usual one counts again."""

    CALLED = "a hand that is known"
    IS_WEIGHED = True
    UNDONE_IN_TURN = False

    job: str = line(LONGEST_JOB)  # that has taught it
    sizes: int = whole(1, _MOST_SIZES)  # so many that it has worked, in that job and those before it
    scatter: float = number(_LEAST_TIMES, _MOST_TIMES)  # how many times the usual one, in the middle
    scatter_doubt: float = number(_LEAST_DOUBT, 1.0)  # standard uncertainty of its natural logarithm
    habit: float = number(-_FURTHEST, _FURTHEST)  # where it stops, in half widths of the limits
    habit_doubt: float = number(_LEAST_DOUBT, 1.0)

    @property
    def changes_earlier(self) -> bool:
        """See Body."""
        return True

    def words(self) -> Words:
        """See Body."""
        return say(
            "what {} told of your hand: it lands {} times as wide of its aim as is usual ({})",
            self.job,
            self.figure,
            counted(self.sizes, "size"),
        )

    @property
    def figure(self) -> Figure:
        """How many times the usual scatter it has, with its doubt."""
        return Figure(self.scatter, Kind.FACTOR, self.scatter * self.scatter_doubt)

    def in_short(self) -> Words:
        """The figure, and how many sizes it rests on."""
        return say("{} {:±}, {}", figure_of_shop(HAND_OF_SMITH), self.figure, counted(self.sizes, "size"))
