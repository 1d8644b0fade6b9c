"""The fork: the end of a bar split into two tines."""

from __future__ import annotations

from dataclasses import dataclass
from types import MappingProxyType

from coach.forms.base import CrossSection, End, Facing, Form, Loop, rectangle
from coach.forms.taper import Taper, mean_area_mm2, side_faces_mm2


@dataclass(frozen=True, slots=True)
class Fork(Form):
    """Two tines alike, each a taper: V = 2·L/6·(w₁t₁ + (w₁ + w₂)(t₁ + t₂) + w₂t₂), as of `taper`.

    Both are one zone: what is measured of one counts for both. How far they stand apart holds no metal.
    """

    ALSO_CALLED = MappingProxyType({"tines": "", "prongs": ""})
    SUMMARY = "a bar split from its end into two tines alike, straight or tapered"
    VOLUME = "twice that of a taper"
    STRAIGHT = ("tine", "thickness", "end_tine", "end_thickness")
    FALLBACKS = MappingProxyType({"end_tine": "tine", "end_thickness": "thickness"})

    tine_mm: float
    thickness_mm: float
    end_tine_mm: float
    end_thickness_mm: float
    length_mm: float

    def unbent(self) -> Taper:
        """The bar that is split, both halves laid together."""
        start = 2 * self.tine_mm, self.thickness_mm
        return Taper(*start, 2 * self.end_tine_mm, self.end_thickness_mm, self.length_mm)

    def volume_mm3(self) -> float:
        """Both tines, mm³."""
        return 2 * self.length_mm * mean_area_mm2(*self._ends_mm())

    def side_surface_mm2(self) -> float:
        """The four faces of either, mm²."""
        return 2 * side_faces_mm2(*self._ends_mm(), self.length_mm)

    def end_area_mm2(self, end: End) -> float:
        """Both rectangles at that end, mm²."""
        width, thickness = self._ends_mm()[:2] if end == "start" else self._ends_mm()[2:]
        return 2 * width * thickness

    def section(self, at_mm: float) -> CrossSection:
        """Both tines there, laid side by side."""
        share = self._share_along(at_mm)
        width_mm = self.tine_mm + share * (self.end_tine_mm - self.tine_mm)
        thickness_mm = self.thickness_mm + share * (self.end_thickness_mm - self.thickness_mm)
        return CrossSection(2 * width_mm * thickness_mm, rectangle(2 * width_mm, thickness_mm))

    def creases(self, facing: Facing) -> tuple[Loop, ...]:
        """From above, where its tines lie beside each other: how far they are opened is none of its sizes."""
        if facing == "thickness":
            return ()
        middle = ((0.0, 0.0), (self.length_mm, 0.0))
        return ((*middle, *reversed(middle)),)

    def _ends_mm(self) -> tuple[float, float, float, float]:
        return self.tine_mm, self.thickness_mm, self.end_tine_mm, self.end_thickness_mm
