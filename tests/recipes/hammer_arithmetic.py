"""The two-faced hammer reckoned by hand: the guide's formulas and nothing of the coach.

Lengths are in mm, surfaces in mm², volumes in mm³, masses in g. Every rule used is in docs/recipes.md.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from math import cos, hypot, pi, sin, sqrt, tau
from typing import NamedTuple

# What a heat takes off each bare face, in mm (the guide's table).
FORGING, WELDING, TREATMENT = 0.03, 0.08, 0.01
# g/mm³ (docs/recipes.md, Pieces).
IRON, STEEL = 7.70e-3, 7.85e-3


@dataclass(frozen=True)
class Section:
    """What a straight bar is across: its area and its girth."""

    area: float
    girth: float

    def bare(self, volume: float, ends: int) -> float:
        """The sides of a bar of this volume, and as many of its ends as are free."""
        return self.girth * volume / self.area + ends * self.area


def square(side: float) -> Section:
    return Section(side**2, 4 * side)


def flat(width: float, thickness: float) -> Section:
    return Section(width * thickness, 2 * (width + thickness))


def round_(diameter: float) -> Section:
    return Section(pi / 4 * diameter**2, pi * diameter)


def octagon(across_flats: float) -> Section:
    # A regular octagon over its inscribed circle: each of eight sides is across_flats · tan 22.5°.
    return Section(2 * (sqrt(2) - 1) * across_flats**2, 8 * (sqrt(2) - 1) * across_flats)


BAR = square(36)
N_BAR, N_NECK, N_GROUND = round_(32), octagon(28), octagon(27)
S_BAR, S_FACE, S_NECK, S_GROUND = flat(40, 20), flat(29, 16), square(28), square(27)
# Every heat takes its loss off both faces of what it does not work. A face is drawn so much fuller that the
# tack leaves it as drawn; the necks have limits of their own, and for what hardening takes no end is ground
# otherwise: its limits are too wide.
TACKED, NORMALISED, HARDENED = 2 * WELDING, 2 * 3 * TREATMENT, 2 * TREATMENT
N_FACE_DRAWN, S_FACE_DRAWN = octagon(28 + TACKED), flat(29 + TACKED, 16 + TACKED)
N_TACKED, S_TACKED = octagon(28 - TACKED), square(28 - TACKED)
N_NORMALISED, S_NORMALISED = octagon(28 - NORMALISED), square(28 - NORMALISED)
N_HARDENED, S_HARDENED = octagon(27 - HARDENED), square(27 - HARDENED)


def where(rises: Callable[[float], float], goal: float, high: float) -> float:
    """The number between 0 and `high` at which something that rises comes to the goal, by halving."""
    low = 0.0
    for _ in range(100):
        middle = (low + high) / 2
        low, high = (middle, high) if rises(middle) < goal else (low, middle)
    return (low + high) / 2


def scaled(volume: float, was: Section, becomes: Section, loss: float, ends: int) -> float:
    """V′ from V = V′ + loss · the mean of the bare surface before and after."""
    before = was.bare(volume, ends)
    return where(lambda left: left + loss * (before + becomes.bare(left, ends)) / 2, volume, volume)


def welded(zone: float, laid: float, squeeze: float, section: Section) -> float:
    """Three welding heats, one end bare: V′ = both − squeeze − scale of the joined solid as it is after."""
    both = (zone + laid) * (1 - squeeze)
    return where(lambda left: left + 3 * WELDING * section.bare(left, 1), both, both)


# The steels. Each is sawn off, drawn in two heats and scaled in the tacking heat; then it is as its drawing.
N_FACE_VOLUME, S_FACE_VOLUME = N_NECK.area * 18, S_FACE.area * 29


def steel(at_weld: float, bar: Section, drawn: Section, face: Section) -> tuple[float, float]:
    """Lengths: of bar to cut at, and of the face as it is drawn, before the tack."""
    before = where(lambda volume: scaled(volume, drawn, face, WELDING, 2), at_weld, 1e5)
    cut = where(lambda volume: scaled(volume, bar, drawn, 2 * FORGING, 2), before, 1e5)
    return cut / bar.area, before / drawn.area


@dataclass(frozen=True)
class Neck:
    """The volumes of one end of the body, from its bar without a kerf to where grinding begins."""

    bar: float
    set_down: float
    tacked: float
    welded: float
    normalised: float


class Sections(NamedTuple):
    """What an end is across, set down and welded; and what the tack and the normalising leave of that."""

    neck: Section
    tacked: Section
    normalised: Section


N_SECTIONS = Sections(N_NECK, N_TACKED, N_NORMALISED)
S_SECTIONS = Sections(S_NECK, S_TACKED, S_NORMALISED)


def neck(bar: float, of: Sections, heats: int, laid: float, squeeze: float) -> Neck:
    """An end that is set down, tacked, welded and normalised."""
    set_down = scaled(bar, BAR, of.neck, heats * FORGING, 1)
    tacked = scaled(set_down, of.neck, of.tacked, WELDING, 1)
    joined = welded(tacked, laid, squeeze, of.neck)
    return Neck(bar, set_down, tacked, joined, scaled(joined, of.neck, of.normalised, 3 * TREATMENT, 1))


def north() -> Neck:
    """The octagon end, from the bar that leaves 1 mm of skin to grind off its face."""

    def of(bar: float) -> Neck:
        return neck(bar, N_SECTIONS, 4, N_FACE_VOLUME, 0.015)

    return of(where(lambda bar: of(bar).normalised, N_NORMALISED.area * (52 + 1.0), 1e5))


def south() -> Neck:
    """The square end, with what is usual when nothing is said: a squeeze of 1 % and a skin of 0.5 mm."""

    def of(bar: float) -> Neck:
        return neck(bar, S_SECTIONS, 3, S_FACE_VOLUME, 0.01)

    return of(where(lambda bar: of(bar).normalised, S_NORMALISED.area * (48 + 0.5), 1e5))


def hardened_length(ground: Section, left: Section, length: float) -> float:
    """What hardening leaves of an end that was ground to a length."""
    return scaled(ground.area * length, ground, left, TREATMENT, 1) / left.area


# The eye: 36 mm thick as its bar is, punched through that with a slot of 24 × 8, drifted to an oval that
# narrows to the far side, normalised. Three heats each thin it and the last widen what hole there is. It is
# drifted so much less wide that it ends 20 wide, and 17 on the far side; along it, where its limits are twice
# as far, that is not worth it.
PUNCHED_DEPTH = 36.0 - 2 * 3 * FORGING
DRIFTED_DEPTH = PUNCHED_DEPTH - 2 * 3 * FORGING
DEPTH = DRIFTED_DEPTH - NORMALISED
SLOT = (24 - 8) * 8 + pi / 4 * 8**2
SLOT_WALL = (2 * (24 - 8) + pi * 8) * PUNCHED_DEPTH


class Oval(NamedTuple):
    """An oval hole that narrows on its way through."""

    near: tuple[float, float]
    far: tuple[float, float]
    depth: float

    @property
    def mouths(self) -> float:
        return pi / 4 * (self.near[0] * self.near[1] + self.far[0] * self.far[1])

    @property
    def volume(self) -> float:
        (a, b), (c, d) = self.near, self.far
        return self.depth / 6 * (self.mouths + 4 * pi / 4 * (a + c) / 2 * (b + d) / 2)

    @property
    def wall(self) -> float:
        return sum(self._strips())

    def _strips(self) -> Iterator[float]:
        """Its wall in narrow strips, each straight from the near mouth to the far one."""
        along, around = 20, 180
        for place in range(along):
            down = (place + 0.5) / along
            a, b = ((near + (far - near) * down) / 2 for near, far in zip(self.near, self.far, strict=True))
            for turn in range(around):
                t = tau * (turn + 0.5) / around
                girth = (-a * sin(t), b * cos(t))
                slope = (
                    (self.far[0] - self.near[0]) / 2 * cos(t),
                    (self.far[1] - self.near[1]) / 2 * sin(t),
                )
                square_to = hypot(self.depth * hypot(*girth), girth[0] * slope[1] - girth[1] * slope[0])
                yield square_to * tau / around / along


OVAL = Oval((30.0 + NORMALISED, 20.0), (27.0 + NORMALISED, 17.0), DEPTH)
DRIFTED_OVAL = Oval((30.0, 20.0 - NORMALISED), (27.0, 17.0 - NORMALISED), DRIFTED_DEPTH)


@dataclass(frozen=True)
class Eye:
    """The eye after each step that has it in the fire."""

    bar: float
    punched: float
    drifted: float
    normalised: float

    @property
    def bar_length(self) -> float:
        return self.bar / BAR.area

    @property
    def punched_width(self) -> float:
        return (self.punched + SLOT * PUNCHED_DEPTH) / (PUNCHED_DEPTH * self.bar_length)

    @property
    def drifted_width(self) -> float:
        return (self.drifted + DRIFTED_OVAL.volume) / (DRIFTED_DEPTH * 44)

    @property
    def finished_width(self) -> float:
        return (self.normalised + OVAL.volume) / (DEPTH * 44)


def around_hole(volume: float, length: float, depth: float, hole: float, mouths: float, wall: float) -> float:
    """The four sides of a block without its two mouths, and the wall of its hole; no end of it is free."""
    width = (volume + hole) / (depth * length)
    return 2 * (width + depth) * length - mouths + wall


def slotted(volume: float, length: float) -> float:
    return around_hole(volume, length, PUNCHED_DEPTH, SLOT * PUNCHED_DEPTH, 2 * SLOT, SLOT_WALL)


def with_oval(volume: float, oval: Oval, wall: float) -> float:
    return around_hole(volume, 44, oval.depth, oval.volume, oval.mouths, wall)


def eye_from(bar: float) -> Eye:
    """Punched in three heats with a slug of 6 mm, drifted in three, normalised in three; it keeps its bar's
    length until the drift brings it to 44."""
    length = bar / BAR.area
    sides = BAR.bare(bar, 0)
    rest = bar - SLOT * 6
    punched = where(lambda left: left + 3 * FORGING * (sides + slotted(left, length)) / 2, rest, rest)
    slot = slotted(punched, length)
    wide, full = DRIFTED_OVAL.wall, OVAL.wall
    drifted = where(
        lambda left: left + 3 * FORGING * (slot + with_oval(left, DRIFTED_OVAL, wide)) / 2, punched, punched
    )
    before = with_oval(drifted, DRIFTED_OVAL, wide)
    normalised = where(
        lambda left: left + 3 * TREATMENT * (before + with_oval(left, OVAL, full)) / 2, drifted, drifted
    )
    return Eye(bar, punched, drifted, normalised)


def eye() -> Eye:
    """From the bar that gives a width of 44, and 2 % of that volume besides."""
    return eye_from(1.02 * where(lambda bar: eye_from(bar).finished_width, 44, 1e5))


def joined_mass(volume: float, iron: float, laid: float) -> float:
    """Iron and steel lose by their shares at the weld, so they keep them."""
    return volume * (iron * IRON + laid * STEEL) / (iron + laid)
