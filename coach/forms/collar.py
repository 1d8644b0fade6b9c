"""The collar: a flat bar closed round a bundle of bars."""

from __future__ import annotations

import math
from dataclasses import dataclass

from coach.forms.bar import Prism
from coach.forms.base import Facing, Loop, Point, rectangle
from coach.forms.flat import Flat

#: Places to each of its corners at which it is drawn (our choice).
_SEEN_IN_A_CORNER = 6


@dataclass(frozen=True, slots=True)
class Collar(Prism):
    """A flat bar closed square round a × b: V = w·t·L, surface 2·(w + t)·L and both ends, its ends butted.

    L = 2·(a + b) + π·t: its corners are sharp inside and round outside, so that the middle of the bar goes a
    quarter of a circle of t/2 round each (Pappus).
    """

    SUMMARY = "a flat bar closed square round a bundle of bars, its ends butted"
    VOLUME = "w · t · (2 · (a + b) + π · t), a by b inside"
    FREE = "inside_height"
    EVEN = ("width",)
    STRAIGHT = ("inside_width", "inside_height")

    inside_width_mm: float
    inside_height_mm: float
    width_mm: float
    thickness_mm: float

    @property
    def length_mm(self) -> float:
        """The length of the bar before it was bent, mm."""
        return 2 * (self.inside_width_mm + self.inside_height_mm) + math.pi * self.thickness_mm

    def unbent(self) -> Flat:
        """The flat bar that is closed to it."""
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
        """Seen along the bars that it holds in the side view, from outside in the plan view."""
        thick = self.thickness_mm
        along, half = self.inside_width_mm + 2 * thick, self.inside_height_mm / 2
        if facing == "width":
            return tuple((x + along / 2, y) for x, y in rectangle(along, self.width_mm))
        start, finish = thick, along - thick
        corners = [(finish, -half, -90), (finish, half, 0), (start, half, 90), (start, -half, 180)]
        outer = [(along / 2, -half - thick)]
        for x, y, degrees in corners:
            outer += [
                _round(x, y, thick, degrees + 90 * step / _SEEN_IN_A_CORNER)
                for step in range(_SEEN_IN_A_CORNER + 1)
            ]
        inner = [(along / 2, -half), (finish, -half), (finish, half), (start, half), (start, -half)]
        return (*outer, outer[0], *reversed([*inner, inner[0]]))


def _round(x: float, y: float, radius_mm: float, degrees: float) -> Point:
    angle = math.radians(degrees)
    return x + radius_mm * math.cos(angle), y + radius_mm * math.sin(angle)
