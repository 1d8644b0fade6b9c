"""The scroll: a flat or square bar curled up."""

from __future__ import annotations

from dataclasses import dataclass
from types import MappingProxyType

from coach.forms.bar import Prism
from coach.forms.base import Facing, Loop, rectangle
from coach.forms.flat import Flat
from coach.forms.spiral import Spiral
from coach.quantities import Words


@dataclass(frozen=True, slots=True)
class Scroll(Prism):
    """A rectangular bar curled on its flat in an even spiral: V = w·t·L, surface 2·(w + t)·L and both ends.

    L is the length of the spiral along the middle of the bar, which bending neither stretches nor squeezes:
    what the outside gains the inside loses, so that both formulae hold to the last digit (Pappus).
    """

    WRITTEN = "scroll of 20 x 6"
    ALSO_CALLED = MappingProxyType({"volute": "", "curl": ""})
    BENT = True
    SUMMARY = "a flat or square bar curled up, each turn as far from the next"
    VOLUME = "w · t · L, L along the middle of the bar"
    FREE = "across"
    EVEN = ("width",)
    FALLBACKS = MappingProxyType({"width": "thickness"})

    across_mm: float
    eye_mm: float
    pitch_mm: float
    width_mm: float
    thickness_mm: float

    @property
    def spiral(self) -> Spiral:
        """The line that it is curled along."""
        return Spiral(self.across_mm, self.eye_mm, self.pitch_mm, self.thickness_mm)

    @property
    def length_mm(self) -> float:
        """The length of the bar before it was curled, mm."""
        return self.spiral.length_mm()

    def unbent(self) -> Flat:
        """The flat bar that is curled."""
        return Flat(self.width_mm, self.thickness_mm, self.length_mm)

    def faults(self) -> list[Words]:
        """What no bar can be curled to."""
        return self.spiral.faults()

    def section_area_mm2(self) -> float:
        """w·t, mm²."""
        return self.width_mm * self.thickness_mm

    def perimeter_mm(self) -> float:
        """2·(w + t), mm."""
        return 2 * (self.width_mm + self.thickness_mm)

    def outline(self) -> Loop:
        """The rectangle of its bar, mm."""
        return rectangle(self.width_mm, self.thickness_mm)

    def curled(self, facing: Facing) -> Loop | None:
        """The spiral, seen on the thickness of its bar."""
        return self.spiral.strip() if facing == "thickness" else self.spiral.edgeways(self.width_mm)
