"""The twisted bar."""

from __future__ import annotations

import math
from dataclasses import dataclass
from types import MappingProxyType

from coach.forms.base import CrossSection, End, Form, rectangle, turned_by
from coach.forms.flat import Flat

#: How much of the way a twisted bar shortens that a bundle of loose fibres would, whose mean fibre keeps its
#: length along its helix. Metal that flows alike every way keeps its length, and a smith's lessons allow
#: nothing (T. F. Googerty, Hand Forging, p. 78: 10 in twisted from 10 in); some shortening is what smiths
#: expect. No measured lengths were found (judgement).
FIBRE_SHARE = 0.1
#: Places to a turn at which it is drawn, and the most of them (our choice).
_SEEN_IN_A_TURN = 8
_SEEN_AT_MOST = 400


@dataclass(frozen=True, slots=True)
class TwistedBar(Form):
    """A rectangular bar turned evenly about its axis: V = w·t·L·(1 + k), k = (√(1 + q²) − 1)/10.

    Width and thickness are those of the bar beside the twist, and `turn` is how far along one turn takes. A
    fibre at r from the axis lies on a helix that is √(1 + (2π·r/turn)²) as long as the axis (elementary
    geometry); q is 2π/turn times the radius whose square is the mean over the section, (w² + t²)/12. What it
    shortens by, the section swells. Each face is a strip of a helicoid: its area is L·∫√(1 + (2π·u/turn)²)du
    across it.
    """

    BENT = True
    SUMMARY = "a rectangular bar, or a square one, turned evenly about its axis"
    VOLUME = "w · t · L · (1 + k), k = (√(1 + π²(w² + t²)/(3 · turn²)) − 1)/10"
    FALLBACKS = MappingProxyType({"thickness": "width"})

    width_mm: float
    thickness_mm: float
    turn_mm: float
    length_mm: float

    @property
    def turns(self) -> float:
        """How often it goes round."""
        return self.length_mm / self.turn_mm

    @property
    def corner_mm(self) -> float:
        """The length of one of its corners along its helix, mm."""
        return self.length_mm * math.hypot(1.0, math.pi * math.hypot(*self.across_mm) / self.turn_mm)

    def unbent(self) -> Flat:
        """The bar that is turned, as it is beside the twist."""
        return Flat(self.width_mm, self.thickness_mm, self.length_mm)

    def volume_mm3(self) -> float:
        """w·t·L·(1 + k), mm³."""
        return self.end_area_mm2("start") * self.length_mm

    def side_surface_mm2(self) -> float:
        """Four strips of helicoids, mm²."""
        broad, narrow = self.across_mm
        return 2 * self.length_mm * (strip(broad, self.turn_mm) + strip(narrow, self.turn_mm))

    def end_area_mm2(self, end: End) -> float:
        """The section's area, mm², at either end."""
        return self.width_mm * self.thickness_mm * self._swelling()

    def section(self, at_mm: float) -> CrossSection:
        """The rectangle, turned as far as it is there."""
        angle = 2 * math.pi * self._share_along(at_mm) * self.turns
        return CrossSection(self.end_area_mm2("start"), turned_by(rectangle(*self.across_mm), angle))

    def landmarks(self) -> tuple[float, ...]:
        """Every eighth of a turn."""
        count = min(math.ceil(self.turns * _SEEN_IN_A_TURN), _SEEN_AT_MOST)
        return tuple(step / (self.turns * _SEEN_IN_A_TURN) for step in range(1, count))

    def _swelling(self) -> float:
        mean_square = (self.width_mm**2 + self.thickness_mm**2) / 12
        return 1 + FIBRE_SHARE * (math.hypot(1.0, 2 * math.pi * math.sqrt(mean_square) / self.turn_mm) - 1)

    @property
    def across_mm(self) -> tuple[float, float]:
        """The sides of the section as it has swollen."""
        wider = math.sqrt(self._swelling())
        return self.width_mm * wider, self.thickness_mm * wider


def strip(across_mm: float, turn_mm: float) -> float:
    """The area of a helicoid's strip for each mm along: ∫√(1 + (2π·u/turn)²)du from edge to edge."""
    steep = math.pi * across_mm / turn_mm
    return across_mm / 2 * (math.hypot(1.0, steep) + math.asinh(steep) / steep)
