"""The link of a chain."""

from __future__ import annotations

import math
from dataclasses import dataclass

from coach.forms.base import End, Facing, Loop, rectangle
from coach.forms.bent_round import BentRound
from coach.quantities import Words, mm, say

#: Places to each of its round ends at which it is drawn (our choice).
_SEEN_IN_AN_END = 24


@dataclass(frozen=True, slots=True)
class Link(BentRound):
    """A round bar closed round two half circles: V = π/4·d²·l, l = π·(b + d) + 2·(a − b).

    a and b are how long and how wide it is inside, d the bar; l is the way along the middle of the bar, and
    the surface π·d·l (Pappus).
    """

    SUMMARY = "a long link of round bar, closed"
    VOLUME = "π/4 · d² · (π · (b + d) + 2 · (a − b)), a by b inside"
    CLOSED = True
    FREE = "inner_length"
    STRAIGHT = ("inner_length", "inner_width")

    inner_length_mm: float
    inner_width_mm: float
    diameter_mm: float

    @property
    def length_mm(self) -> float:
        """The way round along the middle of the bar, mm: its length before it was bent."""
        straight_mm = self.inner_length_mm - self.inner_width_mm
        return math.pi * (self.inner_width_mm + self.diameter_mm) + 2 * straight_mm

    def faults(self) -> list[Words]:
        """A link that is wider than long."""
        if self.inner_length_mm >= self.inner_width_mm:
            return []
        words = "a link {} long inside cannot be {} wide: its width is the shorter"
        return [say(words, mm(self.inner_length_mm), mm(self.inner_width_mm))]

    def end_area_mm2(self, end: End) -> float:
        """0: a closed link has no ends."""
        return 0.0

    def curled(self, facing: Facing) -> Loop | None:
        """The link from above, and on its edge in the side view."""
        along = self.inner_length_mm + 2 * self.diameter_mm
        if facing == "thickness":
            return tuple((x + along / 2, y) for x, y in rectangle(along, self.diameter_mm))
        outer = self._round(self.inner_width_mm / 2 + self.diameter_mm)
        inner = self._round(self.inner_width_mm / 2)
        return tuple((x + along / 2, y) for x, y in (*outer, *reversed(inner)))

    def _round(self, radius_mm: float) -> list[tuple[float, float]]:
        """Once round at that radius of its ends, closed."""
        centre = (self.inner_length_mm - self.inner_width_mm) / 2
        angles = [math.pi * step / _SEEN_IN_AN_END - math.pi / 2 for step in range(_SEEN_IN_AN_END + 1)]
        right = [(centre + radius_mm * math.cos(one), radius_mm * math.sin(one)) for one in angles]
        return [*right, *((-x, -y) for x, y in right), right[0]]
