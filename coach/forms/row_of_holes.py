"""What flat bars with a row of holes through their thickness have in common, whatever the shape of a hole."""

from __future__ import annotations

from abc import abstractmethod
from typing import Final

from coach.forms.base import CrossSection, End, Facing, Form, Loop, rectangle
from coach.quantities import Words, mm, say

#: How many holes there are, by their words, from two on (our choice).
COUNTS: Final = ("two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")
_FEWEST: Final = 2  # a row of one is an eye (by definition)


class RowOfHoles(Form):
    """A flat bar less n holes of area A through its thickness: V = t · (w·L − n·A).

    They are spaced evenly along it, the first and the last half a space from its ends (elementary geometry).
    """

    __slots__ = ()

    width_mm: float
    thickness_mm: float
    length_mm: float
    holes: str

    @property
    @abstractmethod
    def near_mm(self) -> tuple[float, float]:
        """The mouth of each hole, along the bar and across it, mm."""

    @abstractmethod
    def hole_area_mm2(self) -> float:
        """The area of one hole, mm²."""

    @abstractmethod
    def around_hole_mm(self) -> float:
        """The way round one hole, mm."""

    @abstractmethod
    def half_open_mm(self, from_middle_mm: float) -> float:
        """Half the opening across a hole so far along from its middle, mm; 0 beside it."""

    @abstractmethod
    def hole_loop(self) -> Loop:
        """A hole's outline from its middle as (along, across) points, mm."""

    @property
    def count(self) -> int:
        """How many holes there are."""
        return COUNTS.index(self.holes) + _FEWEST

    @property
    def space_mm(self) -> float:
        """From the middle of one hole to that of the next, mm."""
        return self.length_mm / self.count

    @property
    def far_mm(self) -> tuple[float, float]:
        """The mouth at the other face, mm: as wide."""
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
        long_mm, wide_mm = self.near_mm
        if wide_mm >= self.width_mm:
            words = (
                "holes of {} leave no metal beside them in a width of {}: make them smaller or the bar wider"
            )
            found.append(say(words, mm(wide_mm), mm(self.width_mm)))
        if long_mm >= self.space_mm:
            words = (
                "{} holes of {} leave nothing between them in {}: make them fewer or smaller, or it longer"
            )
            found.append(say(words, self.holes, mm(long_mm), mm(self.length_mm)))
        return found

    def volume_mm3(self) -> float:
        """The bar less its holes, mm³."""
        return self.thickness_mm * (self.width_mm * self.length_mm - self.count * self.hole_area_mm2())

    def side_surface_mm2(self) -> float:
        """Four faces less the mouths, and the walls of the holes, mm²."""
        faces = 2 * (self.width_mm + self.thickness_mm) * self.length_mm
        walls = self.around_hole_mm() * self.thickness_mm
        return faces + self.count * (walls - 2 * self.hole_area_mm2())

    def end_area_mm2(self, end: End) -> float:
        """The rectangle at either end, mm²."""
        return self.width_mm * self.thickness_mm

    def section(self, at_mm: float) -> CrossSection:
        """The slice at that place: whole, or a hole between its two sides."""
        along_mm = self._share_along(at_mm) * self.length_mm
        outline, block_mm2 = rectangle(self.width_mm, self.thickness_mm), self.width_mm * self.thickness_mm
        beside = min((along_mm - centre for centre in self.centres_mm()), key=abs)
        wide_mm = 2 * self.half_open_mm(beside)
        if wide_mm <= 0.0:
            return CrossSection(block_mm2, outline)
        loop = rectangle(wide_mm, self.thickness_mm)
        return CrossSection(block_mm2 - wide_mm * self.thickness_mm, outline, (loop,))

    def landmarks(self) -> tuple[float, ...]:
        """The middle of each hole."""
        return tuple(centre / self.length_mm for centre in self.centres_mm())

    def openings(self, facing: Facing) -> tuple[tuple[Loop, tuple[float, ...]], ...]:
        """The holes as they are seen: their outline from above, the first with its size."""
        from_above = facing == "width"
        long_mm, wide_mm = self.near_mm
        seen = self.hole_loop() if from_above else rectangle(long_mm, self.thickness_mm)
        written = (long_mm,) if long_mm == wide_mm else (long_mm, wide_mm)
        first, *others = (tuple((x + centre, y) for x, y in seen) for centre in self.centres_mm())
        return ((first, written if from_above else ()), *((loop, ()) for loop in others))
