"""The round taper: circle to circle."""

from __future__ import annotations

import math
from dataclasses import dataclass
from types import MappingProxyType

from coach.forms.base import CrossSection, End, Form, circle


@dataclass(frozen=True, slots=True)
class RoundTaper(Form):
    """Frustum of a cone: V = π·L/12·(D² + D·d + d²), side π·(D + d)/2·√(L² + ((D − d)/2)²).

    Source: the mensuration of the cone (Kern & Bland, Solid Mensuration, 1938, from memory).
    """

    WRITTEN = "round 14 to 9"
    ALSO_CALLED = MappingProxyType({"cone": ""})
    SUMMARY = "a round bar that runs evenly from one diameter to another"
    VOLUME = "π · L/12 · (D² + D · d + d²)"
    FALLBACKS = MappingProxyType({"end_diameter": "diameter"})

    diameter_mm: float
    end_diameter_mm: float
    length_mm: float

    def volume_mm3(self) -> float:
        """π·L/12·(D² + D·d + d²), mm³."""
        start, end = self.diameter_mm, self.end_diameter_mm
        return math.pi * self.length_mm / 12 * (start * start + start * end + end * end)

    def side_surface_mm2(self) -> float:
        """Mean circumference times slant length, mm²."""
        start, end = self.diameter_mm, self.end_diameter_mm
        return math.pi * (start + end) / 2 * math.hypot(self.length_mm, (start - end) / 2)

    def end_area_mm2(self, end: End) -> float:
        """The circle at that end, mm²."""
        diameter_mm = self.diameter_mm if end == "start" else self.end_diameter_mm
        return math.pi / 4 * diameter_mm * diameter_mm

    def section(self, at_mm: float) -> CrossSection:
        """The circle at that place."""
        share = self._share_along(at_mm)
        diameter_mm = self.diameter_mm + share * (self.end_diameter_mm - self.diameter_mm)
        return CrossSection(math.pi / 4 * diameter_mm * diameter_mm, circle(diameter_mm))

    def _size_for(self, dimension: str, volume_mm3: float) -> float:
        kept_mm = self.end_diameter_mm if dimension == "diameter" else self.diameter_mm
        # D² + D·d + d² = 12·V/(π·L): the positive root; a cone on d alone already holds π·L/12·d².
        wanted_mm2 = 12 * volume_mm3 / (math.pi * self.length_mm)
        if wanted_mm2 <= kept_mm * kept_mm:
            raise self._unsolvable(dimension, volume_mm3)
        return (math.sqrt(4 * wanted_mm2 - 3 * kept_mm * kept_mm) - kept_mm) / 2
