"""Metal was lost that no step takes: burnt, cracked off, cut wrong."""

from __future__ import annotations

from coach.log.amends import Amends
from coach.log.limits import LONGEST_NAME, line, number, one_of

#: What can take metal that no step was to take.
TOOK = ("burnt", "cracked", "cold shut", "cut wrong", "ground away", "something else")
#: Of a loss that was entered without it.
NOT_SAID = "not said how"
CAUSES = (*TOOK, NOT_SAID)


class MetalLost(Amends):
    """So much of a zone that is gone, and what took it."""

    CALLED = "a loss of metal"
    SAYS = ("lost: {}", "title")
    MOVES_METAL = True
    CAN_BE_PUT_RIGHT = True  # of a corner that is seen on the tool

    zone: str = line(LONGEST_NAME)
    cause: str = one_of(*CAUSES)
    corner_end_mm: float | None = number(0.05, 10_000.0, or_none=True)  # of a corner: how far along the end
    corner_side_mm: float | None = number(0.05, 10_000.0, or_none=True)  # and along the side
