"""The twisted taper: a bar that runs from one rectangle to another and is turned about its axis."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from types import MappingProxyType

from coach.forms.base import CrossSection, End, Form, rectangle, turned_by
from coach.forms.taper import Taper
from coach.forms.twisted_bar import TwistedBar, strip

#: Into how many pairs of slices it is parted: Simpson's rule is then good to a millionth (our choice).
_PAIRS = 24
#: Places to a turn at which it is drawn, and the most of them (our choice).
_SEEN_IN_A_TURN = 8
_SEEN_AT_MOST = 400


@dataclass(frozen=True, slots=True)
class TwistedTaper(Form):
    """A taper turned evenly about its axis: at every place a `twisted bar` of the section that is there.

    V = L·∫w·t·(1 + k)ds with w and t running evenly from one end to the other (Simpson's rule). Each face is
    the strip of a helicoid there, longer by the slope of the taper.
    """

    BENT = True
    SUMMARY = "a bar that runs evenly from one rectangle to another, turned evenly about its axis"
    VOLUME = "that of the twisted bar, added up along the taper"
    FALLBACKS = MappingProxyType({"thickness": "width", "end_width": "width", "end_thickness": "end_width"})

    width_mm: float
    thickness_mm: float
    end_width_mm: float
    end_thickness_mm: float
    turn_mm: float
    length_mm: float

    @property
    def turns(self) -> float:
        """How often it goes round."""
        return self.length_mm / self.turn_mm

    @property
    def corner_mm(self) -> float:
        """The length of one of its corners along its helix, mm."""
        return self.length_mm * _along(lambda share: self._at(share).corner_mm)

    def unbent(self) -> Taper:
        """The taper that is turned."""
        start = self.width_mm, self.thickness_mm
        return Taper(*start, self.end_width_mm, self.end_thickness_mm, self.length_mm)

    def volume_mm3(self) -> float:
        """The sections added up along it, mm³."""
        return self.length_mm * _along(lambda share: self._at(share).volume_mm3())

    def side_surface_mm2(self) -> float:
        """Four strips of helicoids that narrow, mm²."""
        broad, narrow = (
            math.hypot(1.0, (one - other) / 2 / self.length_mm)
            for one, other in (
                (self.thickness_mm, self.end_thickness_mm),
                (self.width_mm, self.end_width_mm),
            )
        )
        return 2 * self.length_mm * _along(lambda share: self._around(share, broad, narrow))

    def end_area_mm2(self, end: End) -> float:
        """The section's area, mm², at that end."""
        return self._at(0.0 if end == "start" else 1.0).end_area_mm2("start")

    def section(self, at_mm: float) -> CrossSection:
        """The rectangle there, turned as far as it is."""
        share = self._share_along(at_mm)
        here = self._at(share)
        loop = turned_by(rectangle(*here.across_mm), 2 * math.pi * share * self.turns)
        return CrossSection(here.end_area_mm2("start"), loop)

    def landmarks(self) -> tuple[float, ...]:
        """Every eighth of a turn."""
        count = min(math.ceil(self.turns * _SEEN_IN_A_TURN), _SEEN_AT_MOST)
        return tuple(step / (self.turns * _SEEN_IN_A_TURN) for step in range(1, count))

    def _at(self, share: float) -> TwistedBar:
        """A millimetre of twisted bar with the section that is there."""
        width_mm = self.width_mm + share * (self.end_width_mm - self.width_mm)
        thickness_mm = self.thickness_mm + share * (self.end_thickness_mm - self.thickness_mm)
        return TwistedBar(width_mm, thickness_mm, self.turn_mm, 1.0)

    def _around(self, share: float, broad: float, narrow: float) -> float:
        wide_mm, thick_mm = self._at(share).across_mm
        return broad * strip(wide_mm, self.turn_mm) + narrow * strip(thick_mm, self.turn_mm)


def _along(what: Callable[[float], float]) -> float:
    """The mean of something along the bar by Simpson's rule, from its share 0 to 1."""
    count = 2 * _PAIRS
    weights = (1 if step in (0, count) else 4 if step % 2 else 2 for step in range(count + 1))
    return sum(weight * what(step / count) for step, weight in enumerate(weights)) / (3 * count)
