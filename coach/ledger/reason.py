"""Why a job stands as it does: which size of which zone decides, and how far it is from what is allowed."""

from __future__ import annotations

from enum import StrEnum
from math import nan
from typing import NamedTuple

from coach.quantities import Figure, mm


class Why(StrEnum):
    """What is wrong, or what comes nearest to it."""

    SHORT = "short of metal"  # it may not be enough
    UNDER = "stays under"  # and no step ahead puts it right
    OVER = "stays over"
    FULL = "full section"  # metal enough, in a section fuller than drawn
    TIGHTEST = "tightest"  # metal enough, least of it here
    ENOUGH = "enough"  # nothing is drawn for the metal to show in


class Reason(NamedTuple):
    """Why a zone stands as it does, or the whole job by the zone that decides."""

    why: Why  # what is wrong, or what comes nearest to it
    zone: str = ""  # whose size it is; empty where the metal is enough for every zone
    dimension: str = ""  # the size
    #: how far that is beyond the bound: of metal above the least, of a size over its limit; negative below
    beyond: Figure = mm(nan)
    bound: Figure = mm(nan)  # the least, or the limit, that the drawing allows
    fire: Figure | None = None  # how many times the scale reckoned the fire takes, where it is a hungry one

    @property
    def size(self) -> Figure:
        """What the size comes to."""
        return mm(self.bound.value + self.beyond.value, self.beyond.doubt)
