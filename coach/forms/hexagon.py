"""The hexagon bar."""

from __future__ import annotations

import math
from dataclasses import dataclass

from coach.forms.bar import Bar
from coach.forms.base import Loop

#: One side of a regular hexagon that is 1 across its flats (by definition).
_SIDE = 1 / math.sqrt(3)


@dataclass(frozen=True, slots=True)
class Hexagon(Bar):
    """Regular hexagon of a across its flats: A = √3/2·a², P = 2√3·a (elementary geometry)."""

    SUMMARY = "a six-sided bar, the same all along"
    VOLUME = "√3/2 · a² · L"

    across_flats_mm: float
    length_mm: float

    def section_area_mm2(self) -> float:
        """√3/2·a², mm²."""
        return 1.5 * _SIDE * self.across_flats_mm * self.across_flats_mm

    def perimeter_mm(self) -> float:
        """2√3·a, mm."""
        return 6 * _SIDE * self.across_flats_mm

    def outline(self) -> Loop:
        """The hexagon with two flats square to its thickness and its corners across its width, mm."""
        flat, corner = self.across_flats_mm / 2, _SIDE * self.across_flats_mm
        half = corner / 2
        return (
            (-half, -flat),
            (half, -flat),
            (corner, 0.0),
            (half, flat),
            (-half, flat),
            (-corner, 0.0),
        )
