"""A length was taken off a bar of the rack, for a job that was begun from it."""

from __future__ import annotations

from coach.log.body import Body
from coach.log.limits import line, number
from coach.log.names import LONGEST_JOB
from coach.quantities.figure import mm
from coach.quantities.words import Words, say


class RackCut(Body):
    """What a job takes off a bar, its kerf with it. Struck out, the bar is as long as before."""

    CALLED = "a cut off the rack"
    OF_JOB = False
    OF_RACK = True

    name: str = line(LONGEST_JOB)  # of the bar
    length_mm: float = number(0.1, 100_000.0)
    job: str = line(LONGEST_JOB)

    def words(self) -> Words:
        """See Body."""
        return say("{:=} cut off {} for {}", mm(self.length_mm), self.name, self.job)
