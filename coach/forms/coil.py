"""The coil of round bar: wound round a mandrel, as a spring or a grip that stays cool."""

from __future__ import annotations

import math
from dataclasses import dataclass
from types import MappingProxyType

from coach.forms.base import Facing, Loop, Point
from coach.forms.bent_round import BentRound
from coach.quantities import Words, mm, say


@dataclass(frozen=True, slots=True)
class Coil(BentRound):
    """A round bar wound in an even helix: V = π/4·d²·L, surface π·d·L and both ends (Pappus).

    L = n·√((π·(D + d))² + p²) along the middle of the bar, for n turns round a mandrel D, each p further on:
    the way round and the way on are the two sides of a right angle, unrolled (calculus). The coil is as long
    as n·p, and as what the bar, which leans by its pitch, reaches beyond at its two ends.
    """

    WRITTEN = "coil of round 8"
    ALSO_CALLED = MappingProxyType({"helix": "", "spring": "", "spiral": ""})
    SUMMARY = "a round bar wound round a mandrel, each turn as far on as the last"
    VOLUME = "π/4 · d² · L, L = n · √((π · (D + d))² + p²), n turns, D inside"
    FREE = "wound_length"
    EVEN = ()
    STRAIGHT = ("wound_length",)

    inside_mm: float
    pitch_mm: float
    diameter_mm: float
    wound_length_mm: float

    @property
    def one_turn_mm(self) -> float:
        """How much of the bar goes round once, along its middle, mm."""
        return math.hypot(math.pi * (self.inside_mm + self.diameter_mm), self.pitch_mm)

    @property
    def turns(self) -> float:
        """How often it goes round."""
        upright = math.pi * (self.inside_mm + self.diameter_mm) / self.one_turn_mm
        return (self.wound_length_mm - self.diameter_mm * upright) / self.pitch_mm

    @property
    def length_mm(self) -> float:
        """The length of the bar before it was wound, mm."""
        return self.turns * self.one_turn_mm

    def faults(self) -> list[Words]:
        """Turns that lie in each other, and less than one of them."""
        pitch, bar = mm(self.pitch_mm), mm(self.diameter_mm)
        found = []
        if self.pitch_mm < self.diameter_mm:
            found.append(say("turns {} apart lie in each other in a bar of {}", pitch, bar))
        if self.turns < 1.0:
            words = "a coil {} long with turns {} apart is less than one turn: bend it instead"
            found.append(say(words, mm(self.wound_length_mm), pitch))
        return found

    def curled(self, facing: Facing) -> Loop | None:
        """Its turns to and fro, alike from above and from the side, and what is seen through them."""
        half = self.diameter_mm / 2
        middle = (self.inside_mm + self.diameter_mm) / 2
        count = max(2, round(2 * self.turns))
        step = (self.wound_length_mm - self.diameter_mm) / count
        notch = middle * (self.diameter_mm / step - 1.0)  # where two strands that meet leave their corner
        sides: dict[int, list[Point]] = {1: [], -1: []}
        for place in range(count + 1):
            x = half + place * step
            here = -1 if place % 2 else 1
            rim = here * middle
            sides[here] += [(x - half, rim), (x, rim + here * half), (x + half, rim)]
            if 0 < place < count and notch < middle:
                sides[-here].append((x, -here * notch))
        return (*sides[1], *reversed(sides[-1]))
