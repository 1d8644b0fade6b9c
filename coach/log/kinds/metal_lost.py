"""Metal was lost that no step takes: burnt, cracked off, cut wrong."""

from __future__ import annotations

from coach.log.amends import Amends
from coach.log.limits import LONGEST_NAME, line, one_of

#: What can take metal that no step was to take.
CAUSES = ("burnt", "cracked", "cold shut", "cut wrong", "ground away", "something else")


class MetalLost(Amends):
    """So much of a zone that is gone, and what took it."""

    CALLED = "a loss of metal"
    SAYS = ("lost: {}", "title")
    MOVES_METAL = True

    zone: str = line(LONGEST_NAME)
    cause: str = one_of(*CAUSES)
