"""The pierced bar: a flat bar with a row of round holes, for nails, screws or rivets."""

from __future__ import annotations

import math
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

from coach.forms.base import CrossSection, End, Facing, Form, Loop, circle, rectangle
from coach.quantities import Words, mm, say

#: How many holes there are, by their words, from two on (our choice).
COUNTS: Final = ("two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")
_FEWEST: Final = 2  # a row of one is an eye (by definition)


@dataclass(frozen=True, slots=True)
class PiercedBar(Form):
    """A flat bar less n round holes through its thickness: V = t · (w·L − n·π/4·d²).

    They are spaced evenly along it, the first and the last half a space from its ends (elementary geometry).
    """

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
    def count(self) -> int:
        """How many holes there are."""
        return COUNTS.index(self.holes) + _FEWEST

    @property
    def space_mm(self) -> float:
        """From the middle of one hole to that of the next, mm."""
        return self.length_mm / self.count

    @property
    def near_mm(self) -> tuple[float, float]:
        """The mouth of each hole, along the bar and across it, mm; the far one is as wide."""
        return self.hole_diameter_mm, self.hole_diameter_mm

    @property
    def far_mm(self) -> tuple[float, float]:
        """The same at the other face, mm."""
        return self.near_mm

    @property
    def depth_mm(self) -> float:
        """How deep the holes are, mm."""
        return self.thickness_mm

    def centres_mm(self) -> tuple[float, ...]:
        """How far along the middle of each hole lies, mm."""
        return tuple((number + 0.5) * self.space_mm for number in range(self.count))

    def faults(self) -> list[Words]:
        """Holes that leave nothing beside or between them."""
        found: list[Words] = []
        if self.hole_diameter_mm >= self.width_mm:
            words = (
                "holes of {} leave no metal beside them in a width of {}: make them smaller or the bar wider"
            )
            found.append(say(words, mm(self.hole_diameter_mm), mm(self.width_mm)))
        if self.hole_diameter_mm >= self.space_mm:
            words = (
                "{} holes of {} leave nothing between them in {}: make them fewer or smaller, or it longer"
            )
            found.append(say(words, self.holes, mm(self.hole_diameter_mm), mm(self.length_mm)))
        return found

    def _hole_mm2(self) -> float:
        return math.pi / 4 * self.hole_diameter_mm**2

    def volume_mm3(self) -> float:
        """The bar less its holes, mm³."""
        return self.thickness_mm * (self.width_mm * self.length_mm - self.count * self._hole_mm2())

    def side_surface_mm2(self) -> float:
        """Four faces less the mouths, and the walls of the holes, mm²."""
        faces = 2 * (self.width_mm + self.thickness_mm) * self.length_mm
        walls = math.pi * self.hole_diameter_mm * self.thickness_mm
        return faces + self.count * (walls - 2 * self._hole_mm2())

    def end_area_mm2(self, end: End) -> float:
        """The rectangle at either end, mm²."""
        return self.width_mm * self.thickness_mm

    def section(self, at_mm: float) -> CrossSection:
        """The slice at that place: whole, or a hole between its two sides."""
        along_mm = self._share_along(at_mm) * self.length_mm
        outline, block_mm2 = rectangle(self.width_mm, self.thickness_mm), self.width_mm * self.thickness_mm
        radius = self.hole_diameter_mm / 2
        beside = min(abs(along_mm - centre) for centre in self.centres_mm())
        if beside >= radius:
            return CrossSection(block_mm2, outline)
        wide_mm = 2 * math.sqrt(radius * radius - beside * beside)
        loop = rectangle(wide_mm, self.thickness_mm)
        return CrossSection(block_mm2 - wide_mm * self.thickness_mm, outline, (loop,))

    def landmarks(self) -> tuple[float, ...]:
        """The middle of each hole."""
        return tuple(centre / self.length_mm for centre in self.centres_mm())

    def openings(self, facing: Facing) -> tuple[tuple[Loop, tuple[float, ...]], ...]:
        """The holes as they are seen: round from above, the first with its size; as deep from the side."""
        from_above = facing == "width"
        depth_mm = self.thickness_mm
        seen = circle(self.hole_diameter_mm) if from_above else rectangle(self.hole_diameter_mm, depth_mm)
        first, *others = (tuple((x + centre, y) for x, y in seen) for centre in self.centres_mm())
        return ((first, (self.hole_diameter_mm,) if from_above else ()), *((loop, ()) for loop in others))
