"""The ring of round bar."""

from __future__ import annotations

import math
from dataclasses import dataclass
from types import MappingProxyType

from coach.forms.base import End
from coach.forms.bent_round import BentRound


@dataclass(frozen=True, slots=True)
class RoundRing(BentRound):
    """Torus, a round bar closed into a ring: V = π/4·d²·π·(D + d), surface π·d·π·(D + d), D inside the ring.

    Pappus's theorems: bar section, or the way round it, times the mean circumference π·(D + d).
    """

    WRITTEN = "ring of round 14"
    ALSO_CALLED = MappingProxyType({"loop": ""})
    SUMMARY = "a ring of round bar, closed"
    VOLUME = "π²/4 · d² · (D + d), D inside"
    CLOSED = True
    FREE = "inner_diameter"
    STRAIGHT = ("inner_diameter",)

    inner_diameter_mm: float
    diameter_mm: float

    @property
    def length_mm(self) -> float:
        """The mean circumference, mm: the length of the bar before it was bent round."""
        return math.pi * (self.inner_diameter_mm + self.diameter_mm)

    def end_area_mm2(self, end: End) -> float:
        """0: a closed ring has no ends."""
        return 0.0
