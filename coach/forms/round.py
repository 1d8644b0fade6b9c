"""The round bar."""

from __future__ import annotations

import math
from dataclasses import dataclass
from types import MappingProxyType

from coach.forms.bar import Bar
from coach.forms.base import Loop, circle


@dataclass(frozen=True, slots=True)
class Round(Bar):
    """Round bar: V = π/4·d²·L, surface π·d·L + π/2·d² (elementary geometry)."""

    WRITTEN = "round 12"
    ALSO_CALLED = MappingProxyType(
        {
            "rod": "",
            "wire": "",
            "cylinder": "",
            "hook": ", as long as its bar is straight: bend turns it over",
        }
    )
    SUMMARY = "a round bar, the same all along"
    VOLUME = "π/4 · d² · L"

    diameter_mm: float
    length_mm: float

    def section_area_mm2(self) -> float:
        """π/4·d², mm²."""
        return math.pi / 4 * self.diameter_mm * self.diameter_mm

    def perimeter_mm(self) -> float:
        """π·d, mm."""
        return math.pi * self.diameter_mm

    def outline(self) -> Loop:
        """The circle as an inscribed polygon, mm."""
        return circle(self.diameter_mm)
