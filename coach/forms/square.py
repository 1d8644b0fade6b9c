"""The square bar."""

from __future__ import annotations

from dataclasses import dataclass

from coach.forms.bar import Bar
from coach.forms.base import Loop, rectangle


@dataclass(frozen=True, slots=True)
class Square(Bar):
    """Square bar: V = a²·L, surface 4·a·L + 2·a² (elementary geometry)."""

    SUMMARY = "a square bar, the same all along"
    VOLUME = "s² · L"

    side_mm: float
    length_mm: float

    def section_area_mm2(self) -> float:
        """a², mm²."""
        return self.side_mm * self.side_mm

    def perimeter_mm(self) -> float:
        """4·a, mm."""
        return 4 * self.side_mm

    def outline(self) -> Loop:
        """The square, mm."""
        return rectangle(self.side_mm, self.side_mm)
