"""The rivet, and the tenon that is headed like one."""

from __future__ import annotations

import math
from dataclasses import dataclass
from types import MappingProxyType

from coach.forms.base import CrossSection, End, Form, circle
from coach.forms.round import Round
from coach.quantities import Words, mm, say


@dataclass(frozen=True, slots=True)
class Rivet(Form):
    """A round shank with a head at its end, or at both: V = π/4·d²·g + n·π·h/12·(D² + D·d + d²).

    A head is taken as a cone of height h, D at its rim, cut off as wide as the shank d (elementary
    mensuration); a button head as wide and high has nearly as much metal. The grip g is what it holds
    together: what lies between the heads, or the shank of one with one head.
    """

    SUMMARY = "a round shank with a head, or between two"
    VOLUME = "π/4 · d² · g, and π · h/12 · (D² + D · d + d²) for each head"
    FREE = "head_height"
    EVEN = ()
    STRAIGHT = ("grip", "head_height")
    OPTIONS = MappingProxyType({"heads": ("two", "one")})
    OPENS_AT_START = True  # the head of a tenon is at the end of its piece

    diameter_mm: float
    grip_mm: float
    head_diameter_mm: float
    head_height_mm: float
    heads: str = "two"

    @property
    def count(self) -> int:
        """How many heads it has."""
        return 1 if self.heads == "one" else 2

    @property
    def length_mm(self) -> float:
        """From end to end, mm."""
        return self.grip_mm + self.count * self.head_height_mm

    @property
    def head_mm3(self) -> float:
        """The metal of one head, mm³."""
        rim, top = self.head_diameter_mm, self.diameter_mm
        return math.pi * self.head_height_mm / 12 * (rim * rim + rim * top + top * top)

    def unbent(self) -> Round:
        """The rod that is headed, as long as its metal goes."""
        section_mm2 = math.pi / 4 * self.diameter_mm**2
        return Round(self.diameter_mm, self.volume_mm3() / section_mm2)

    def faults(self) -> list[Words]:
        """A head that nothing is held by."""
        if self.head_diameter_mm > self.diameter_mm:
            return []
        words = "a head of {} holds nothing on a shank of {}"
        return [say(words, mm(self.head_diameter_mm), mm(self.diameter_mm))]

    def volume_mm3(self) -> float:
        """Shank and heads, mm³."""
        return math.pi / 4 * self.diameter_mm**2 * self.grip_mm + self.count * self.head_mm3

    def side_surface_mm2(self) -> float:
        """The shank, and of each head its slope and the underside of its rim, mm²."""
        rim, top = self.head_diameter_mm, self.diameter_mm
        slope = math.pi * (rim + top) / 2 * math.hypot(self.head_height_mm, (rim - top) / 2)
        return math.pi * top * self.grip_mm + self.count * (slope + math.pi / 4 * (rim * rim - top * top))

    def end_area_mm2(self, end: End) -> float:
        """As wide as the shank at either end, mm²."""
        return math.pi / 4 * self.diameter_mm**2

    def section(self, at_mm: float) -> CrossSection:
        """The circle at that place; the head of one with one head is at its start."""
        length_mm, high_mm = self.length_mm, self.head_height_mm
        at_mm = self._share_along(at_mm) * length_mm
        from_end = min(at_mm, length_mm - at_mm if self.count == 2 else length_mm)
        wider = self.head_diameter_mm - self.diameter_mm
        across_mm = self.diameter_mm + (wider * from_end / high_mm if from_end < high_mm else 0.0)
        return CrossSection(math.pi / 4 * across_mm * across_mm, circle(across_mm))

    def landmarks(self) -> tuple[float, ...]:
        """On either side of where a head ends."""
        share, near = self.head_height_mm / self.length_mm, 1e-6
        first = share * (1 - near), share * (1 + near)
        return first if self.count == 1 else (*first, 1 - first[1], 1 - first[0])
