"""The disc: a round plate, as a bowl is sunk from."""

from __future__ import annotations

import math
from dataclasses import dataclass
from types import MappingProxyType

from coach.forms.base import CrossSection, End, Facing, Form, Loop, rectangle


@dataclass(frozen=True, slots=True)
class Disc(Form):
    """A round plate that lies with its faces along the bar: V = π/4·d²·t."""

    ALSO_CALLED = MappingProxyType({"circle": ""})
    SUMMARY = "a flat round plate"
    VOLUME = "π/4 · d² · t"
    FREE = "diameter"
    EVEN = ("thickness",)

    diameter_mm: float
    thickness_mm: float

    @property
    def length_mm(self) -> float:
        """How far it reaches along the bar, mm."""
        return self.diameter_mm

    def volume_mm3(self) -> float:
        """π/4·d²·t, mm³."""
        return math.pi / 4 * self.diameter_mm**2 * self.thickness_mm

    def side_surface_mm2(self) -> float:
        """Both faces and the rim, mm²."""
        return math.pi * self.diameter_mm * (self.diameter_mm / 2 + self.thickness_mm)

    def end_area_mm2(self, end: End) -> float:
        """None: its rim goes round in a point there."""
        return 0.0

    def section(self, at_mm: float) -> CrossSection:
        """The slice at that place: as wide as the chord there."""
        off_mm = (self._share_along(at_mm) - 0.5) * self.diameter_mm
        chord_mm = 2 * math.sqrt(max((self.diameter_mm / 2) ** 2 - off_mm**2, 0.0))
        return CrossSection(chord_mm * self.thickness_mm, rectangle(chord_mm, self.thickness_mm))

    def curled(self, facing: Facing) -> Loop | None:
        """From above, its rim."""
        return lying_round(self.diameter_mm) if facing == "width" else None

    def _size_for(self, dimension: str, volume_mm3: float) -> float:
        return self.diameter_mm * math.sqrt(volume_mm3 / self.volume_mm3())


#: Points along half a rim: fine for any print (our choice).
_HALF_STEPS = 48


def lying_round(diameter_mm: float) -> Loop:
    """A circle from x = 0 on as it lies along the bar, mm: its lower half forth and its upper half back."""
    half_mm = diameter_mm / 2
    turns = [math.pi * step / _HALF_STEPS for step in range(_HALF_STEPS + 1)]
    lower = [(half_mm * (1 - math.cos(turn)), -half_mm * math.sin(turn)) for turn in turns]
    return (*lower, *((x, -y) for x, y in reversed(lower)))
