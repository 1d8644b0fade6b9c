"""The octagon bar."""

from __future__ import annotations

import math
from dataclasses import dataclass

from coach.forms.bar import Bar
from coach.forms.base import Loop

#: One side of a regular octagon that is 1 across its flats (by definition).
_SIDE = math.sqrt(2) - 1


@dataclass(frozen=True, slots=True)
class Octagon(Bar):
    """Regular octagon of a across its flats: A = 2(√2 − 1)·a², P = 8(√2 − 1)·a (elementary geometry)."""

    SUMMARY = "an eight-sided bar, the same all along"
    VOLUME = "2(√2 − 1) · a² · L"

    across_flats_mm: float
    length_mm: float

    def section_area_mm2(self) -> float:
        """2(√2 − 1)·a², mm²."""
        return 2 * _SIDE * self.across_flats_mm * self.across_flats_mm

    def perimeter_mm(self) -> float:
        """8(√2 − 1)·a, mm."""
        return 8 * _SIDE * self.across_flats_mm

    def outline(self) -> Loop:
        """The octagon with flats square to width and thickness, mm."""
        flat, corner = self.across_flats_mm / 2, _SIDE * self.across_flats_mm / 2
        return (
            (-corner, -flat),
            (corner, -flat),
            (flat, -corner),
            (flat, corner),
            (corner, flat),
            (-corner, flat),
            (-flat, corner),
            (-flat, -corner),
        )
