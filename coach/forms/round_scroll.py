"""The scroll of round bar."""

from __future__ import annotations

from dataclasses import dataclass

from coach.forms.base import Facing, Loop
from coach.forms.bent_round import BentRound
from coach.forms.spiral import Spiral
from coach.quantities import Words


@dataclass(frozen=True, slots=True)
class RoundScroll(BentRound):
    """A round bar curled in an even spiral: V = π/4·d²·L, surface π·d·L and both ends (Pappus).

    L is the length of the spiral along the middle of the bar.
    """

    SUMMARY = "a round bar curled up, each turn as far from the next"
    VOLUME = "π/4 · d² · L, L along the middle of the bar"
    FREE = "across"

    across_mm: float
    eye_mm: float
    pitch_mm: float
    diameter_mm: float

    @property
    def spiral(self) -> Spiral:
        """The line that it is curled along."""
        return Spiral(self.across_mm, self.eye_mm, self.pitch_mm, self.diameter_mm)

    @property
    def length_mm(self) -> float:
        """The length of the bar before it was curled, mm."""
        return self.spiral.length_mm()

    def faults(self) -> list[Words]:
        """What no bar can be curled to."""
        return self.spiral.faults()

    def curled(self, facing: Facing) -> Loop | None:
        """The spiral, seen along the axis of its curl in the side view."""
        return self.spiral.strip() if facing == "thickness" else self.spiral.edgeways(self.diameter_mm)
