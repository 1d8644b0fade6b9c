"""The strap eye: a flat bar folded round into an eye."""

from __future__ import annotations

import math
from dataclasses import dataclass

from coach.forms.bar import Prism
from coach.forms.base import Facing, Loop, Point, rectangle
from coach.forms.flat import Flat

#: Places to half a circle at which it is drawn (our choice).
_SEEN_IN_A_HALF = 24


@dataclass(frozen=True, slots=True)
class StrapEye(Prism):
    """A flat bar folded round a mandrel, its end laid back: V = w·t·L, surface 2·(w + t)·L and both ends.

    L = π·(d + t) + 2·l is the length of bar in it along its middle, which is neither stretched nor squeezed
    (T. F. Googerty, Hand Forging, p. 69): d is the eye inside, and l how far its end lies back on the bar
    beside the eye, which is part of it so far.
    """

    BENT = True
    SUMMARY = "a flat bar folded round into an eye, its end laid back on it"
    VOLUME = "w · t · (π · (d + t) + 2 · l), d inside and l the lap"
    FREE = "lap"
    EVEN = ("width",)
    STRAIGHT = ("inside", "lap")

    inside_mm: float
    width_mm: float
    thickness_mm: float
    lap_mm: float

    @property
    def length_mm(self) -> float:
        """The length of the bar before it was folded, mm."""
        return math.pi * (self.inside_mm + self.thickness_mm) + 2 * self.lap_mm

    def unbent(self) -> Flat:
        """The flat bar that is folded round."""
        return Flat(self.width_mm, self.thickness_mm, self.length_mm)

    def section_area_mm2(self) -> float:
        """w·t, mm²."""
        return self.width_mm * self.thickness_mm

    def perimeter_mm(self) -> float:
        """2·(w + t), mm."""
        return 2 * (self.width_mm + self.thickness_mm)

    def outline(self) -> Loop:
        """The rectangle of its bar, mm."""
        return rectangle(self.width_mm, self.thickness_mm)

    def curled(self, facing: Facing) -> Loop | None:
        """The eye beyond its lap, seen on the thickness of its bar; from above a rectangle."""
        outer_mm = self.inside_mm / 2 + self.thickness_mm
        along = self.lap_mm + 2 * outer_mm
        if facing == "width":
            return tuple((x + along / 2, y) for x, y in rectangle(along, self.width_mm))
        half = min(self.thickness_mm, outer_mm)  # two thicknesses lie on each other
        leaves = math.asin(half / outer_mm)
        outer = self._round(outer_mm, leaves - math.pi, math.pi - leaves)
        inner = self._round(self.inside_mm / 2, -math.pi, math.pi)
        far = len(outer) // 2
        middle = len(inner) // 2
        hole = [*inner[middle:], *inner[1 : middle + 1]]
        return ((0.0, -half), *outer[: far + 1], *reversed(hole), *outer[far:], (0.0, half))

    def _round(self, radius_mm: float, start: float, finish: float) -> list[Point]:
        """Along a circle about the middle of the eye, from one angle to another."""
        centre = self.lap_mm + self.inside_mm / 2 + self.thickness_mm
        steps = 2 * _SEEN_IN_A_HALF
        angles = [start + (finish - start) * step / steps for step in range(steps + 1)]
        return [(centre + radius_mm * math.cos(one), radius_mm * math.sin(one)) for one in angles]
