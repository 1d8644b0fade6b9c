"""The taper: rectangle to rectangle."""

from __future__ import annotations

import math
from dataclasses import dataclass
from types import MappingProxyType

from coach.forms.base import CrossSection, End, Form, rectangle


@dataclass(frozen=True, slots=True)
class Taper(Form):
    """A bar that runs evenly from one rectangle to another, the two on one axis.

    Prismatoid: V = L/6·(A₁ + 4·Aₘ + A₂), the middle section formed from mean dimensions (not the mean of the
    areas). It is exact for areas up to cubic in the length (Kern & Bland, Solid Mensuration, 1938, from
    memory). Faces are trapezoids: two of mean width (w₁ + w₂)/2 and slant √(L² + ((t₁ − t₂)/2)²), and two
    with width and thickness exchanged.
    """

    WRITTEN = "22 x 12 to 20 x 8"
    ALSO_CALLED = MappingProxyType({"wedge": "", "point": "", "spike": "", "tang": ""})
    SUMMARY = "a bar that runs evenly from one rectangle to another"
    VOLUME = "L/6 · (w₁t₁ + (w₁ + w₂)(t₁ + t₂) + w₂t₂)"
    STRAIGHT = ("width", "thickness", "end_width", "end_thickness")
    FALLBACKS = MappingProxyType({"end_width": "width", "end_thickness": "thickness"})

    width_mm: float
    thickness_mm: float
    end_width_mm: float
    end_thickness_mm: float
    length_mm: float

    def volume_mm3(self) -> float:
        """L/6·(w₁t₁ + (w₁ + w₂)(t₁ + t₂) + w₂t₂), mm³."""
        return self.length_mm * mean_area_mm2(
            self.width_mm, self.thickness_mm, self.end_width_mm, self.end_thickness_mm
        )

    def side_surface_mm2(self) -> float:
        """The four trapezoids, mm²."""
        return side_faces_mm2(
            self.width_mm, self.thickness_mm, self.end_width_mm, self.end_thickness_mm, self.length_mm
        )

    def end_area_mm2(self, end: End) -> float:
        """The rectangle at that end, mm²."""
        if end == "start":
            return self.width_mm * self.thickness_mm
        return self.end_width_mm * self.end_thickness_mm

    def section(self, at_mm: float) -> CrossSection:
        """The rectangle at that place."""
        share = self._share_along(at_mm)
        width_mm = self.width_mm + share * (self.end_width_mm - self.width_mm)
        thickness_mm = self.thickness_mm + share * (self.end_thickness_mm - self.thickness_mm)
        return CrossSection(width_mm * thickness_mm, rectangle(width_mm, thickness_mm))


def mean_area_mm2(width_1: float, thickness_1: float, width_2: float, thickness_2: float) -> float:
    """The mean section of a rectangle-to-rectangle prismatoid, mm² (sizes in mm): volume over length."""
    middle_fourfold = (width_1 + width_2) * (thickness_1 + thickness_2)
    return (width_1 * thickness_1 + middle_fourfold + width_2 * thickness_2) / 6


def side_faces_mm2(
    width_1: float, thickness_1: float, width_2: float, thickness_2: float, length: float
) -> float:
    """The four faces between two rectangles on one axis, mm² (sizes in mm)."""
    broad = (width_1 + width_2) * math.hypot(length, (thickness_1 - thickness_2) / 2)
    return broad + (thickness_1 + thickness_2) * math.hypot(length, (width_1 - width_2) / 2)
