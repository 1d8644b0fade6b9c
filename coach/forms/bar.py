"""What is of one section all along has in common, straight or bent."""

from __future__ import annotations

import math
from abc import abstractmethod

from coach.forms.base import CrossSection, End, Form, Loop


class Prism(Form):
    """One section all along: V = A·L, side surface = P·L, with A and P from the section (geometry).

    That holds of a bent bar too, with L along its middle (Pappus's theorems).
    """

    __slots__ = ()

    @abstractmethod
    def section_area_mm2(self) -> float:
        """The area of the section, mm²."""

    @abstractmethod
    def perimeter_mm(self) -> float:
        """The way round the section, mm."""

    @abstractmethod
    def outline(self) -> Loop:
        """The section's outline, mm."""

    def volume_mm3(self) -> float:
        """Area times length, mm³."""
        return self.section_area_mm2() * self.length_mm

    def side_surface_mm2(self) -> float:
        """Perimeter times length, mm²."""
        return self.perimeter_mm() * self.length_mm

    def end_area_mm2(self, end: End) -> float:
        """The section's area, mm², at either end."""
        return self.section_area_mm2()

    def section(self, at_mm: float) -> CrossSection:
        """The same slice anywhere along the bar."""
        self._share_along(at_mm)
        return CrossSection(self.section_area_mm2(), self.outline())


class Bar(Prism):
    """What a rack holds: a prism that is stock."""

    __slots__ = ()

    def _size_for(self, dimension: str, volume_mm3: float) -> float:
        if len(self.DIMENSIONS) == 2:  # one size across, and the area grows with its square
            return self.size_mm(dimension) * math.sqrt(volume_mm3 / self.volume_mm3())
        return super()._size_for(dimension, volume_mm3)
