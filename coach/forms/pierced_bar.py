"""The pierced bar: a flat bar with a row of round holes, for nails, screws or rivets."""

from __future__ import annotations

import math
from dataclasses import dataclass
from types import MappingProxyType

from coach.forms.base import Loop, circle
from coach.forms.row_of_holes import COUNTS, RowOfHoles


@dataclass(frozen=True, slots=True)
class PiercedBar(RowOfHoles):
    """A flat bar less n round holes through its thickness: V = t · (w·L − n·π/4·d²)."""

    SUMMARY = "a flat bar with a row of round holes through its thickness, spaced evenly"
    VOLUME = "t · (w · L − n · π/4 · d²), n holes"
    OPTIONS = MappingProxyType({"holes": COUNTS})
    EVEN = ("thickness",)
    STRAIGHT = ("width", "length")

    width_mm: float
    thickness_mm: float
    length_mm: float
    hole_diameter_mm: float
    holes: str

    @property
    def near_mm(self) -> tuple[float, float]:
        """The mouth of each hole, along the bar and across it, mm; the far one is as wide."""
        return self.hole_diameter_mm, self.hole_diameter_mm

    def hole_area_mm2(self) -> float:
        """π/4·d², mm²."""
        return math.pi / 4 * self.hole_diameter_mm**2

    def around_hole_mm(self) -> float:
        """π·d, mm."""
        return math.pi * self.hole_diameter_mm

    def half_open_mm(self, from_middle_mm: float) -> float:
        """Half a chord of the circle, mm."""
        radius = self.hole_diameter_mm / 2
        return math.sqrt(max(radius * radius - from_middle_mm * from_middle_mm, 0.0))

    def hole_loop(self) -> Loop:
        """A circle, mm."""
        return circle(self.hole_diameter_mm)
