"""The ring of round bar."""

from __future__ import annotations

import math
from dataclasses import dataclass

from coach.forms.base import CrossSection, End, Form, circle


@dataclass(frozen=True, slots=True)
class RoundRing(Form):
    """Torus, a round bar closed into a ring: V = π/4·d²·π·(D + d), surface π·d·π·(D + d), D inside the ring.

    Pappus's theorems: bar section, or the way round it, times the mean circumference π·(D + d).
    """

    SUMMARY = "a ring of round bar, closed"
    VOLUME = "π²/4 · d² · (D + d), D inside"
    FREE = "inner_diameter"
    STRAIGHT = ("inner_diameter",)

    inner_diameter_mm: float
    diameter_mm: float

    @property
    def length_mm(self) -> float:
        """The mean circumference, mm: the length of the bar before it was bent round."""
        return math.pi * (self.inner_diameter_mm + self.diameter_mm)

    def volume_mm3(self) -> float:
        """π/4·d²·π·(D + d), mm³."""
        return math.pi / 4 * self.diameter_mm**2 * self.length_mm

    def side_surface_mm2(self) -> float:
        """π·d·π·(D + d), mm²."""
        return math.pi * self.diameter_mm * self.length_mm

    def end_area_mm2(self, end: End) -> float:
        """0: a closed ring has no ends."""
        return 0.0

    def section(self, at_mm: float) -> CrossSection:
        """The bar's circle, the same all round."""
        self._share_along(at_mm)
        return CrossSection(math.pi / 4 * self.diameter_mm**2, circle(self.diameter_mm))
