"""The side bevel: a flat bar with an edge along one side."""

from __future__ import annotations

import math
from dataclasses import dataclass
from types import MappingProxyType

from coach.forms.bar import Prism
from coach.forms.base import Facing, Loop
from coach.quantities import Words, mm, say


@dataclass(frozen=True, slots=True)
class SideBevel(Prism):
    """A flat bar of w × t thinned to e over b at one side: A = w·t − b·(t − e)/2, a rectangle less a wedge.

    The way round it is 2·(w − b) + t + e and two slopes of √(b² + ((t − e)/2)²) where it is bevelled on both
    sides, or 2·w − b + t + e and one of √(b² + (t − e)²) on one (elementary geometry).
    """

    WRITTEN = "36 x 6, edge 2 over 20 on one side"
    ALSO_CALLED = MappingProxyType({"blade": "", "knife": ""})
    SUMMARY = "a flat bar with an edge along one side, as of a knife"
    VOLUME = "(w · t − b · (t − e)/2) · L, thinned to e over b"
    OPTIONS = MappingProxyType({"sides": ("both", "one")})
    STRAIGHT = ("width", "thickness", "reach", "edge")

    width_mm: float
    thickness_mm: float
    reach_mm: float
    edge_mm: float
    length_mm: float
    sides: str = "both"

    def faults(self) -> list[Words]:
        """A bevel that is wider than the bar, or an edge that is thicker."""
        found = []
        if self.reach_mm > self.width_mm:
            words = "a bevel of {} is wider than its bar of {}"
            found.append(say(words, mm(self.reach_mm), mm(self.width_mm)))
        if self.edge_mm >= self.thickness_mm:
            words = "an edge of {} is no thinner than its bar of {}"
            found.append(say(words, mm(self.edge_mm), mm(self.thickness_mm)))
        return found

    def section_area_mm2(self) -> float:
        """w·t − b·(t − e)/2, mm²."""
        return self.width_mm * self.thickness_mm - self.reach_mm * (self.thickness_mm - self.edge_mm) / 2

    def perimeter_mm(self) -> float:
        """Back, flats, slopes and edge, mm."""
        thinned = self.thickness_mm - self.edge_mm
        ends, flat = self.thickness_mm + self.edge_mm, self.width_mm - self.reach_mm
        if self.sides == "one":
            return ends + flat + self.width_mm + math.hypot(self.reach_mm, thinned)
        return ends + 2 * flat + 2 * math.hypot(self.reach_mm, thinned / 2)

    def outline(self) -> Loop:
        """The back at the left and the edge at the right, mm."""
        back, root, front = -self.width_mm / 2, self.width_mm / 2 - self.reach_mm, self.width_mm / 2
        half, thin = self.thickness_mm / 2, self.edge_mm / 2
        if self.sides == "one":
            return (back, -half), (front, -half), (front, self.edge_mm - half), (root, half), (back, half)
        return (back, -half), (root, -half), (front, -thin), (front, thin), (root, half), (back, half)

    def creases(self, facing: Facing) -> tuple[Loop, ...]:
        """The bevel from above."""
        if facing == "thickness":
            return ()
        root, front, length = self.width_mm / 2 - self.reach_mm, self.width_mm / 2, self.length_mm
        return (((0.0, root), (length, root), (length, front), (0.0, front)),)
