"""The uneven fork: the end of a bar split into two branches that differ."""

from __future__ import annotations

from dataclasses import dataclass
from types import MappingProxyType

from coach.forms.base import CrossSection, End, Facing, Form, Loop, rectangle
from coach.forms.taper import Taper, mean_area_mm2, side_faces_mm2


@dataclass(frozen=True, slots=True)
class UnevenFork(Form):
    """Two branches, each a taper: V = L/6·(w₁t₁ + (w₁ + w₂)(t₁ + t₂) + w₂t₂), and the same of the other.

    Both are one zone, the longer branch first. What either has of the metal is settled by where the bar is
    split, so that of both lengths only one is free: the other one is stated.
    """

    SUMMARY = "a bar split from its end into two branches that differ, straight or tapered"
    VOLUME = "that of one taper and that of the other"
    EVEN = ()
    STRAIGHT = (
        "tine",
        "thickness",
        "end_tine",
        "end_thickness",
        "length",
        "other_tine",
        "other_thickness",
        "other_end_tine",
        "other_end_thickness",
        "other_length",
    )
    FALLBACKS = MappingProxyType(
        {
            "end_tine": "tine",
            "end_thickness": "thickness",
            "other_thickness": "thickness",
            "other_end_tine": "other_tine",
            "other_end_thickness": "other_thickness",
            "other_length": "length",
        }
    )

    tine_mm: float
    thickness_mm: float
    end_tine_mm: float
    end_thickness_mm: float
    length_mm: float
    other_tine_mm: float
    other_thickness_mm: float
    other_end_tine_mm: float
    other_end_thickness_mm: float
    other_length_mm: float

    @property
    def share(self) -> float:
        """How much of the metal the first branch has."""
        return self.length_mm * mean_area_mm2(*self._first_mm()) / self.volume_mm3()

    def unbent(self) -> Taper:
        """The bar that is split, both halves laid together."""
        end_mm = self.end_tine_mm + self.other_end_tine_mm
        start = self.tine_mm + self.other_tine_mm, self.thickness_mm
        return Taper(*start, end_mm, self.end_thickness_mm, self.length_mm)

    def volume_mm3(self) -> float:
        """Both branches, mm³."""
        first = self.length_mm * mean_area_mm2(*self._first_mm())
        return first + self.other_length_mm * mean_area_mm2(*self._other_mm())

    def side_surface_mm2(self) -> float:
        """The four faces of either, and the end of the shorter one, mm²."""
        first = side_faces_mm2(*self._first_mm(), self.length_mm)
        ends = self.other_end_tine_mm * self.other_end_thickness_mm if self._is_shorter() else 0.0
        return first + side_faces_mm2(*self._other_mm(), self.other_length_mm) + ends

    def end_area_mm2(self, end: End) -> float:
        """Both rectangles where they begin, and where they end what ends there, mm²."""
        if end == "start":
            return self.tine_mm * self.thickness_mm + self.other_tine_mm * self.other_thickness_mm
        other = 0.0 if self._is_shorter() else self.other_end_tine_mm * self.other_end_thickness_mm
        return self.end_tine_mm * self.end_thickness_mm + other

    def section(self, at_mm: float) -> CrossSection:
        """Both branches there, laid side by side; beyond the end of the shorter one the other alone."""
        self._share_along(at_mm)
        first = _there(self._first_mm(), at_mm / self.length_mm)
        if at_mm > self.other_length_mm * (1 + 1e-12):
            return CrossSection(first[0] * first[1], rectangle(*first))
        other = _there(self._other_mm(), at_mm / self.other_length_mm)
        left, right = -(first[0] + other[0]) / 2, (first[0] + other[0]) / 2
        between, thick, thin = left + first[0], first[1] / 2, other[1] / 2
        below = ((left, -thick), (between, -thick), (between, -thin), (right, -thin))
        outline = (*below, *((x, -y) for x, y in reversed(below)))
        return CrossSection(first[0] * first[1] + other[0] * other[1], outline)

    def landmarks(self) -> tuple[float, ...]:
        """On either side of where the other branch ends."""
        share, near = self.other_length_mm / self.length_mm, 2e-10
        return (share * (1 - near), share * (1 + near)) if share < 1 - near else ()

    def creases(self, facing: Facing) -> tuple[Loop, ...]:
        """From above, where the branches lie beside each other."""
        if facing == "thickness":
            return ()
        middle = (self.other_tine_mm - self.tine_mm) / 2
        line = ((0.0, middle), (min(self.length_mm, self.other_length_mm), middle))
        return ((*line, *reversed(line)),)

    def _is_shorter(self) -> bool:
        """Whether the other branch ends before the first one."""
        return self.other_length_mm < self.length_mm * (1 - 1e-12)

    def _first_mm(self) -> tuple[float, float, float, float]:
        return self.tine_mm, self.thickness_mm, self.end_tine_mm, self.end_thickness_mm

    def _other_mm(self) -> tuple[float, float, float, float]:
        return (
            self.other_tine_mm,
            self.other_thickness_mm,
            self.other_end_tine_mm,
            self.other_end_thickness_mm,
        )


def _there(sizes_mm: tuple[float, float, float, float], share: float) -> tuple[float, float]:
    """The section of a branch at a share of its length."""
    width, thickness, end_width, end_thickness = sizes_mm
    return width + share * (end_width - width), thickness + share * (end_thickness - thickness)
