"""In which fire a job is forged and with which hammer, as the smith calls them."""

from __future__ import annotations

from coach.log.body import Body
from coach.log.limits import line
from coach.quantities.words import Words, say

LONGEST_CALLED = 40
"""A fire or a hammer is called no longer than this."""


class ForgedWith(Body):
    """The fire and the hammer of a job: what jobs teach counts for those with the same."""

    CALLED = "the fire and the hammer"
    UNDONE_IN_TURN = False

    fire: str = line(LONGEST_CALLED, least=0)  # empty where it is not named
    hammer: str = line(LONGEST_CALLED, least=0)  # empty where it is not named

    def words(self) -> Words:
        """See Body."""
        told = [f"in the fire {self.fire}"] if self.fire else []
        told += [f"with the hammer {self.hammer}"] if self.hammer else []
        return say("forged {}", " ".join(told))
