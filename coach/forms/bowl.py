"""The bowl: a dished round plate, as of a ladle, a spoon or a drip pan."""

from __future__ import annotations

import math
from dataclasses import dataclass
from types import MappingProxyType

from coach.forms.base import CrossSection, End, Facing, Form, Loop
from coach.forms.disc import lying_round
from coach.quantities import Words, mm, say

#: Points along each arc of a slice's outline: fine for any print (our choice).
_ARC_STEPS = 72

#: Nearer to its end than this share a rim has no section: rounding (our choice).
_AT_ITS_END = 1e-9


@dataclass(frozen=True, slots=True)
class Bowl(Form):
    """The shell between two balls of one centre, cut off by the plane of its rim: V = V(H, D/2) − V(h, a).

    D is across outside over the rim; h is the depth inside, from the rim's plane to the bottom; w is the wall
    and H = h + w. A cap of height H and radius a of its rim holds V(H, a) = π·H·(3a² + H²)/6 and is cut off a
    ball of radius (a² + H²)/(2H); the inner one lies in a ball smaller by w (elementary geometry).
    """

    ALSO_CALLED = MappingProxyType({"dome": "", "cup": "", "ladle": ""})
    SUMMARY = "a round bowl of even wall, part of a hollow ball, its depth measured inside"
    VOLUME = "π/6 · (H · (3/4 · D² + H²) − h · (3a² + h²)), H = h + w, a half the mouth inside"
    FREE = "wall"
    EVEN = ()

    across_mm: float
    depth_mm: float
    wall_mm: float

    @property
    def length_mm(self) -> float:
        """How far it reaches along the bar: its width over the rim, mm."""
        return self.across_mm

    def faults(self) -> list[Words]:
        """A bowl that closes over itself."""
        if self.depth_mm + self.wall_mm <= self.across_mm / 2 * (1.0 + 1e-9):
            return []
        words = "a bowl {} across is at most half a ball: no deeper inside than {} with a wall of {}, not {}"
        most_mm = max(self.across_mm / 2 - self.wall_mm, 0.0)
        return [say(words, *(mm(one) for one in (self.across_mm, most_mm, self.wall_mm, self.depth_mm)))]

    def volume_mm3(self) -> float:
        """The outer cap less the inner one, mm³."""
        return _cap_mm3(self._high_mm(), self.across_mm / 2) - _cap_mm3(self.depth_mm, self._mouth_mm())

    def side_surface_mm2(self) -> float:
        """Outside, inside and rim, mm²: a cap's skin is 2π·R·H."""
        outer, inner = self._outer_mm(), self._inner_mm()
        rim_mm2 = math.pi * ((self.across_mm / 2) ** 2 - self._mouth_mm() ** 2)
        return 2 * math.pi * (outer * self._high_mm() + inner * self.depth_mm) + rim_mm2

    def end_area_mm2(self, end: End) -> float:
        """None: its rim goes round in a point there."""
        return 0.0

    def section(self, at_mm: float) -> CrossSection:
        """The slice at that place: a crescent, or the rim alone."""
        off_mm = (self._share_along(at_mm) - 0.5) * self.across_mm
        if abs(off_mm) >= self.across_mm / 2 * (1.0 - _AT_ITS_END):
            return CrossSection(0.0, ((0.0, 0.0),) * 3)
        rim_mm = self._outer_mm() - self._high_mm()
        outer_mm = math.sqrt(max(self._outer_mm() ** 2 - off_mm**2, 0.0))
        inner_mm = math.sqrt(max(self._inner_mm() ** 2 - off_mm**2, 0.0))
        area_mm2 = _segment_mm2(outer_mm, rim_mm) - _segment_mm2(inner_mm, rim_mm)
        middle_mm = (max(outer_mm, rim_mm) + rim_mm) / 2  # each slice about its own middle
        outline = [(x, middle_mm - y) for x, y in _arc(outer_mm, rim_mm)]
        hollow = [(x, middle_mm - y) for x, y in _arc(inner_mm, rim_mm)] if inner_mm > rim_mm else []
        return CrossSection(area_mm2, (*outline, *reversed(hollow)))

    def landmarks(self) -> tuple[float, ...]:
        """Where the hollow begins and ends."""
        mouth = self._mouth_mm() / self.across_mm
        return (0.5 - mouth, 0.5 + mouth)

    def curled(self, facing: Facing) -> Loop | None:
        """From above its rim, from the side the outer cap."""
        if facing == "width":
            return lying_round(self.across_mm)
        rim_mm, half, high = self._outer_mm() - self._high_mm(), self.across_mm / 2, self._high_mm() / 2
        under = [(half + x, rim_mm + high - y) for x, y in _arc(self._outer_mm(), rim_mm)]
        return (*under, *((x, high) for x, _ in reversed(under)))

    def blank_mm(self) -> float:
        """Across a round blank of its wall that holds as much, mm: V = π/4·d²·w."""
        return math.sqrt(4 * self.volume_mm3() / (math.pi * self.wall_mm))

    def _high_mm(self) -> float:
        return self.depth_mm + self.wall_mm

    def _outer_mm(self) -> float:
        """The radius of the outer ball, mm."""
        return ((self.across_mm / 2) ** 2 + self._high_mm() ** 2) / (2 * self._high_mm())

    def _inner_mm(self) -> float:
        return self._outer_mm() - self.wall_mm

    def _mouth_mm(self) -> float:
        """Half the mouth inside, mm: √(h·(2r − h))."""
        return math.sqrt(max(self.depth_mm * (2 * self._inner_mm() - self.depth_mm), 0.0))


def _cap_mm3(high_mm: float, rim_mm: float) -> float:
    return math.pi * high_mm * (3 * rim_mm**2 + high_mm**2) / 6


def _segment_mm2(radius_mm: float, off_mm: float) -> float:
    """The part of a circle beyond a chord so far off its middle, mm²."""
    if radius_mm <= off_mm:
        return 0.0
    half = math.sqrt(radius_mm**2 - off_mm**2)
    return radius_mm**2 * math.acos(off_mm / radius_mm) - off_mm * half


def _arc(radius_mm: float, off_mm: float) -> list[tuple[float, float]]:
    """Points of a circle beyond such a chord, from one end of it to the other."""
    half = math.acos(min(off_mm / radius_mm, 1.0)) if radius_mm else 0.0
    turns = [half * (2 * step / _ARC_STEPS - 1) for step in range(_ARC_STEPS + 1)]
    return [(radius_mm * math.sin(turn), radius_mm * math.cos(turn)) for turn in turns]
