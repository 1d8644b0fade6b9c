"""The flat-sided ring."""

from __future__ import annotations

import math
from dataclasses import dataclass
from types import MappingProxyType

from coach.forms.base import CrossSection, End, Form, rectangle
from coach.forms.flat import Flat
from coach.quantities import Words, mm, say


@dataclass(frozen=True, slots=True)
class Ring(Form):
    """A rectangular bar closed into a ring: V = π/4·(D² − d²)·t, surface π/2·(D² − d²) + π·(D + d)·t.

    Its length is the mean circumference π·(D + d)/2, so that bar section times length is the volume (Pappus's
    theorem). The thickness lies along the ring's axis; the section's width is the radial (D − d)/2.
    """

    WRITTEN = "ring of 40 x 6"
    ALSO_CALLED = MappingProxyType({"hoop": " on edge", "band": " on edge", "washer": ""})
    SUMMARY = "a flat-sided ring, closed"
    VOLUME = "π/4 · (D² − d²) · t"
    CLOSED = True
    BENT = True
    WALL_FROM = "inner_diameter"
    FREE = "outer_diameter"
    EVEN = ("thickness",)

    outer_diameter_mm: float
    inner_diameter_mm: float
    thickness_mm: float

    @property
    def length_mm(self) -> float:
        """The mean circumference, mm: the length of the bar before it was bent round."""
        return math.pi * (self.outer_diameter_mm + self.inner_diameter_mm) / 2

    def unbent(self) -> Flat:
        """The flat bar that is closed to it."""
        wall_mm = (self.outer_diameter_mm - self.inner_diameter_mm) / 2
        return Flat(wall_mm, self.thickness_mm, self.length_mm)

    def faults(self) -> list[Words]:
        """A hole that leaves no ring."""
        if self.inner_diameter_mm < self.outer_diameter_mm:
            return []
        words = "an inner diameter of {} leaves no wall in an outer diameter of {}"
        return [say(words, mm(self.inner_diameter_mm), mm(self.outer_diameter_mm))]

    def volume_mm3(self) -> float:
        """π/4·(D² − d²)·t, mm³."""
        return self._face_mm2() * self.thickness_mm

    def side_surface_mm2(self) -> float:
        """Both flat sides, the outside and the inside, mm²."""
        return 2 * self._face_mm2() + 2 * self.length_mm * self.thickness_mm

    def end_area_mm2(self, end: End) -> float:
        """0: a closed ring has no ends."""
        return 0.0

    def section(self, at_mm: float) -> CrossSection:
        """The bar's rectangle, the same all round."""
        self._share_along(at_mm)
        radial_mm = (self.outer_diameter_mm - self.inner_diameter_mm) / 2
        return CrossSection(radial_mm * self.thickness_mm, rectangle(radial_mm, self.thickness_mm))

    def _face_mm2(self) -> float:
        return math.pi / 4 * (self.outer_diameter_mm**2 - self.inner_diameter_mm**2)

    def _size_for(self, dimension: str, volume_mm3: float) -> float:
        squares_apart = 4 * volume_mm3 / (math.pi * self.thickness_mm)
        if dimension == "outer_diameter":
            return math.sqrt(self.inner_diameter_mm**2 + squares_apart)
        square = self.outer_diameter_mm**2 - squares_apart
        if square <= 0.0:
            raise self._unsolvable(dimension, volume_mm3)
        return math.sqrt(square)
