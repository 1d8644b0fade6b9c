"""What every round bar that was bent has in common, whatever it is bent to."""

from __future__ import annotations

import math
from abc import abstractmethod

from coach.forms.bar import Prism
from coach.forms.base import Loop, circle
from coach.forms.round import Round


class BentRound(Prism):
    """A round bar that keeps its section: A = π/4·d², P = π·d, its length along its middle (Pappus)."""

    __slots__ = ()

    BENT = True

    diameter_mm: float

    @property
    @abstractmethod
    def length_mm(self) -> float:
        """The length of the bar before it was bent, along its middle, mm."""

    def unbent(self) -> Round:
        """The round bar that is bent to it."""
        return Round(self.diameter_mm, self.length_mm)

    def section_area_mm2(self) -> float:
        """π/4·d², mm²."""
        return math.pi / 4 * self.diameter_mm**2

    def perimeter_mm(self) -> float:
        """π·d, mm."""
        return math.pi * self.diameter_mm

    def outline(self) -> Loop:
        """The circle of its bar, mm."""
        return circle(self.diameter_mm)
