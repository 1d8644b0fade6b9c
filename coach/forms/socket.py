"""The socket: a cone rolled from plate."""

from __future__ import annotations

import math
from dataclasses import dataclass
from types import MappingProxyType

from coach.forms.base import CrossSection, End, Form, circle
from coach.forms.taper import Taper
from coach.quantities import Words, mm, say


@dataclass(frozen=True, slots=True)
class Socket(Form):
    """A conical shell of even wall from mouth to end, open at both: V = π·w·L·((D + d)/2 − w).

    It is the frustum of the outside diameters less that of the inside ones D − 2w, d − 2w. The wall is as a
    calliper finds it at the square-cut mouth; across the plate itself it is less by the cosine of half the
    cone's angle (0.25 % for 32 mm to 18 mm over 100 mm). Side surface π·(D + d − 2w)·√(L² + ((D − d)/2)²).
    """

    ALSO_CALLED = MappingProxyType({"tube": "", "pipe": "", "ferrule": ""})
    BENT = True
    SUMMARY = "a rolled cone of even wall, measured outside, for a haft to sit in"
    VOLUME = "π · w · L · ((D + d)/2 − w), diameters outside"
    STRAIGHT = ("mouth_diameter", "end_diameter")
    OPENS_AT_START = True

    mouth_diameter_mm: float
    end_diameter_mm: float
    wall_mm: float
    length_mm: float

    def unbent(self) -> Taper:
        """The plate: as wide at either end as the middle of its wall is round, π·(D − w)."""
        wall_mm = self.wall_mm
        mouth_mm, end_mm = (
            math.pi * (one - wall_mm) for one in (self.mouth_diameter_mm, self.end_diameter_mm)
        )
        return Taper(mouth_mm, wall_mm, end_mm, wall_mm, self.length_mm)

    def faults(self) -> list[Words]:
        """A wall that leaves no bore."""
        narrow_mm = min(self.mouth_diameter_mm, self.end_diameter_mm)
        if 2 * self.wall_mm < narrow_mm:
            return []
        return [say("a wall of {} leaves no bore in a diameter of {}", mm(self.wall_mm), mm(narrow_mm))]

    def volume_mm3(self) -> float:
        """π·w·L·((D + d)/2 − w), mm³."""
        return math.pi * self.wall_mm * self.length_mm * (self._mean_mm() - self.wall_mm)

    def side_surface_mm2(self) -> float:
        """Outside and bore, mm²."""
        slant_mm = math.hypot(self.length_mm, (self.mouth_diameter_mm - self.end_diameter_mm) / 2)
        return 2 * math.pi * (self._mean_mm() - self.wall_mm) * slant_mm

    def end_area_mm2(self, end: End) -> float:
        """The annulus at the mouth (start) or at the narrow end (finish), mm²."""
        return self._annulus_mm2(self.mouth_diameter_mm if end == "start" else self.end_diameter_mm)

    def section(self, at_mm: float) -> CrossSection:
        """The annulus at that place."""
        share = self._share_along(at_mm)
        outer_mm = self.mouth_diameter_mm + share * (self.end_diameter_mm - self.mouth_diameter_mm)
        bore = circle(outer_mm - 2 * self.wall_mm)
        return CrossSection(self._annulus_mm2(outer_mm), circle(outer_mm), (bore,))

    def _mean_mm(self) -> float:
        return (self.mouth_diameter_mm + self.end_diameter_mm) / 2

    def _annulus_mm2(self, outer_mm: float) -> float:
        return math.pi * self.wall_mm * (outer_mm - self.wall_mm)

    def _size_for(self, dimension: str, volume_mm3: float) -> float:
        # The wall: w² − w·(D + d)/2 + V/(π·L) = 0, the smaller root.
        per_length_mm2, half_mean_mm = volume_mm3 / (math.pi * self.length_mm), self._mean_mm() / 2
        square = half_mean_mm**2 - per_length_mm2
        if square < 0.0:
            raise self._unsolvable(dimension, volume_mm3)
        return per_length_mm2 / (half_mean_mm + math.sqrt(square))
