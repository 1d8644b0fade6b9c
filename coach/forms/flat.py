"""The flat: a rectangular bar."""

from __future__ import annotations

from dataclasses import dataclass
from types import MappingProxyType

from coach.forms.bar import Bar
from coach.forms.base import Loop, rectangle


@dataclass(frozen=True, slots=True)
class Flat(Bar):
    """Rectangular bar: V = w·t·L, surface 2(w + t)·L + 2·w·t (elementary geometry)."""

    WRITTEN = "30 x 8"
    ALSO_CALLED = MappingProxyType(
        dict.fromkeys(("plate", "sheet", "strip", "strap"), "")
        | dict.fromkeys(
            ("tray", "pan", "box"),
            ", as it lies flat: bend turns its sides up, and loses says what is cut out of its corners",
        )
    )
    SUMMARY = "a rectangular bar, the same all along"
    VOLUME = "w · t · L"
    EVEN = ("width", "thickness", "length")

    width_mm: float
    thickness_mm: float
    length_mm: float

    def section_area_mm2(self) -> float:
        """w·t, mm²."""
        return self.width_mm * self.thickness_mm

    def perimeter_mm(self) -> float:
        """2(w + t), mm."""
        return 2 * (self.width_mm + self.thickness_mm)

    def outline(self) -> Loop:
        """The rectangle, mm."""
        return rectangle(self.width_mm, self.thickness_mm)
