"""The line that a scroll is curled along: an even spiral, each turn as far from the next."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from coach.forms.base import Loop, Point, rectangle, turned_by
from coach.quantities import Words, mm, say

#: Places to a turn at which it is drawn (our choice).
_SEEN_IN_A_TURN = 48


class Spiral(NamedTuple):
    """The middle of a bar that is curled: r = r₀ + p·φ/2π (Archimedes), from its eye outwards.

    Measured as a smith can: over the outside from the outer end straight through the middle, and across the
    eye from the inner end. Half a turn on, the line lies half a pitch further out: so the two sizes are
    2R − p/2 + t and 2r₀ + p/2 − t, t being how thick the bar is.
    """

    across_mm: float  # over the outside
    eye_mm: float  # inside the eye
    pitch_mm: float  # from one turn to the next
    thick_mm: float  # of the bar, along the radius

    @property
    def inner_mm(self) -> float:
        """The radius of the line at its inner end, mm."""
        return (self.eye_mm - self.pitch_mm / 2 + self.thick_mm) / 2

    @property
    def outer_mm(self) -> float:
        """The radius of the line at its outer end, mm."""
        return (self.across_mm + self.pitch_mm / 2 - self.thick_mm) / 2

    @property
    def turns(self) -> float:
        """How often it goes round."""
        return (self.outer_mm - self.inner_mm) / self.pitch_mm

    def length_mm(self) -> float:
        """The arc length, mm: ∫√(r² + b²)dφ over the turns, b = p/2π, in closed form (calculus)."""
        each = self.pitch_mm / (2 * math.pi)
        return each / 2 * (_arc(self.outer_mm / each) - _arc(self.inner_mm / each))

    def faults(self) -> list[Words]:
        """Turns that lie in each other, an eye that is too small to turn in, and less than one turn."""
        pitch, eye = mm(self.pitch_mm), mm(self.eye_mm)
        found = []
        if self.pitch_mm < self.thick_mm:
            found.append(say("turns {} apart lie in each other in a bar {} thick", pitch, mm(self.thick_mm)))
        if self.eye_mm <= self.pitch_mm / 2:
            found.append(
                say("an eye of {} is too small for turns {} apart: it is wider than half of that", eye, pitch)
            )
        if self.turns < 1.0:
            words = "{} across, with an eye of {} and turns {} apart, is less than one turn: bend it instead"
            found.append(say(words, mm(self.across_mm), eye, pitch))
        return found

    def strip(self) -> Loop:
        """The bar seen along the axis of the curl, as thick as it is.

        From x = 0 on, where its outer end is, and its middle at y = 0.
        """
        count = max(2, math.ceil(self.turns * _SEEN_IN_A_TURN)) + 1
        angles = [2 * math.pi * self.turns * step / (count - 1) for step in range(count)]
        outer = [self._beside(angle, self.thick_mm / 2) for angle in angles]
        inner = [self._beside(angle, -self.thick_mm / 2) for angle in angles]
        return _from_nought(turned_by((*outer, *reversed(inner)), math.pi - angles[-1]))

    def edgeways(self, high_mm: float) -> Loop:
        """The bar seen at right angles to that, so high."""
        points = self.strip()
        along = max(x for x, _ in points)
        return tuple((x + along / 2, y) for x, y in rectangle(along, high_mm))

    def _beside(self, angle: float, off_mm: float) -> Point:
        """A place so far out of the line, square to it."""
        each = self.pitch_mm / (2 * math.pi)
        radius = self.inner_mm + each * angle
        cosine, sine = math.cos(angle), math.sin(angle)
        # The line runs along (b·cos φ − r·sin φ, b·sin φ + r·cos φ); square to it, outwards:
        steep = math.hypot(radius, each)
        across = (radius * cosine + each * sine) / steep, (radius * sine - each * cosine) / steep
        return radius * cosine + off_mm * across[0], radius * sine + off_mm * across[1]


def _arc(x: float) -> float:
    """Twice the integral of √(1 + x²), times the square of what x was measured in."""
    return x * math.hypot(1.0, x) + math.asinh(x)


def _from_nought(points: Sequence[Point]) -> Loop:
    left = min(x for x, _ in points)
    middle = (min(y for _, y in points) + max(y for _, y in points)) / 2
    return tuple((x - left, y - middle) for x, y in points)
