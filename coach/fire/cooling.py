"""How long a piece takes to come to a temperature: the working time out of the fire, the heating time in it.

A thin piece has one temperature throughout, and cools by
dθ/dt = -(A/V) / (ρ c(θ)) · [h (θ - θ_air) + ε σ (T⁴ - T_air⁴)], the balance of EN 1993-1-2 eq. (4.25)
(confirmed second-hand). It counts as thin while its Biot number is below 0.1, where surface and middle differ
by a few hundredths of the way to the air (Incropera and DeWitt, Fundamentals of Heat and Mass Transfer, §5.2,
from memory). A thicker one is reckoned by conduction, and then every temperature asked for or told is that of
the SURFACE, which the smith forges and sees; the curve tells its middle besides.
Where the one way gives place to the other (a round bar of 57 mm at 1200 °C) a short cooling jumps, as the
surface runs ahead of the mean: to 1100 °C from 37 s to 22 s, to 800 °C by less than half a per cent.

Steel cooling in air gives back the heat of its transformation some 50 °C lower than the published 735 °C, and
a quench takes it later still: about those temperatures the colour holds longer, or sooner, than told here.
"""

from __future__ import annotations

import math
from bisect import bisect_left, bisect_right
from collections.abc import Iterator
from itertools import pairwise
from typing import Final, NamedTuple

from coach.fire.conduction import HalfSection, Moment, moments
from coach.metals.thermal import STEEL, Metal
from coach.quantities.checks import check_size
from coach.quantities.figure import celsius
from coach.quantities.refusal import OutOfRange

#: Below this Biot number a piece has one temperature throughout (Incropera and DeWitt §5.2, from memory).
THIN_BIOT: Final = 0.1

#: No two points of a cooling curve are much further apart than this.
CURVE_STEP_C: Final = 5.0

_STEFAN_BOLTZMANN_W_M2_K4: Final = 5.670374419e-8
_KELVIN: Final = 273.15
# Gauss–Legendre quadrature with eight points; Abramowitz and Stegun, table 25.4 (from memory).
_GAUSS: Final = tuple(
    (sign * node, weight)
    for node, weight in (
        (0.1834346424956498, 0.3626837833783620),
        (0.5255324099163290, 0.3137066458778873),
        (0.7966664774136267, 0.2223810344533745),
        (0.9602898564975363, 0.1012285362903763),
    )
    for sign in (-1.0, 1.0)
)


class CoolingSection(NamedTuple):
    """How thick a piece is to the heat that leaves it, at its cold size."""

    volume_per_surface_mm: float  # of a slab half its thickness, of a round or square bar a quarter of it
    half_thickness_mm: float  # half the least thickness that heat leaves through

    @property
    def shape(self) -> HalfSection:
        """The half section for conduction: a slab, a round bar, a ball, or what lies between them.

        The dimensions are the half thickness over the volume per surface, held between 1 and 3; the volume
        per surface is kept, as the heat that must leave goes by it.
        """
        dimensions = min(max(self.half_thickness_mm / self.volume_per_surface_mm, 1.0), 3.0)
        return HalfSection(dimensions * self.volume_per_surface_mm, dimensions)


class Surroundings(NamedTuple):
    """What the piece gives its heat to."""

    air_c: float = 20.0  # the air, and the walls that it radiates to
    emissivity: float = 0.8  # scaled steel, 0.7 to 0.9; bright steel 0.3 to 0.4 (from memory)
    convection_w_m2_k: float = 10.0  # still air about a glowing bar, 8 to 13 (Churchill and Chu, from memory)
    anvil_factor: float = 1.0  # what touching cold iron multiplies the loss by; anvil about 2 (judgement)


STILL_AIR: Final = Surroundings()
#: A piece lies on the anvil for about half the time, where it loses twice what it loses in the air: half as
#: much again over all (common practice, no source).
AT_THE_ANVIL: Final = Surroundings(anvil_factor=1.5)


#: Scaled steel, 0.7 to 0.9 (from memory), in the gases of a forge fire, a little more than the 25 W/m²K that
#: EN 1991-1-2 gives to the gases of a burning room (judgement; from memory).
FORGE_FIRE: Final = Surroundings(emissivity=0.8, convection_w_m2_k=30.0)


class CoolingPoint(NamedTuple):
    """One instant of a cooling."""

    seconds: float
    surface_c: float
    middle_c: float


class CoolingCurve(NamedTuple):
    """A whole cooling, from which any instant is read without reckoning again."""

    points: tuple[CoolingPoint, ...]  # in order of time, the first at 0 s

    @property
    def seconds(self) -> float:
        """How long the cooling takes."""
        return self.points[-1].seconds

    def at(self, seconds: float) -> CoolingPoint:
        """The piece after this time, on the straight line between two points; still at either end."""
        after = bisect_right(self.points, seconds, key=lambda point: point.seconds)
        if after == 0:
            return self.points[0]
        if after == len(self.points):
            return self.points[-1]
        earlier, later = self.points[after - 1], self.points[after]
        share = (seconds - earlier.seconds) / (later.seconds - earlier.seconds)
        return CoolingPoint(
            seconds,
            earlier.surface_c + share * (later.surface_c - earlier.surface_c),
            earlier.middle_c + share * (later.middle_c - earlier.middle_c),
        )

    def when(self, surface_c: float) -> CoolingPoint:
        """The piece as its surface comes down to a temperature, on the straight line between two points."""
        after = bisect_left(self.points, -surface_c, 1, key=lambda point: -point.surface_c)
        if after == len(self.points):
            return self.points[-1]
        earlier, later = self.points[after - 1], self.points[after]
        share = (earlier.surface_c - surface_c) / (earlier.surface_c - later.surface_c)
        return self.at(earlier.seconds + share * (later.seconds - earlier.seconds))


def heat_loss_w_m2(temperature_c: float, surroundings: Surroundings = STILL_AIR) -> float:
    """What each m² of surface loses at a temperature in °C, in W/m²; below zero where it gains.

    f · [h (θ - θ_air) + ε σ (T⁴ - T_air⁴)], by Newton and by Stefan and Boltzmann.

    >>> round(heat_loss_w_m2(1200))
    225108
    """
    return _exchange_w_m2_k(temperature_c, surroundings) * (temperature_c - surroundings.air_c)


def is_thin(section: CoolingSection, hottest_c: float, surroundings: Surroundings, metal: Metal) -> bool:
    """Whether a piece that gets no hotter than this has one temperature throughout.

    The Biot number falls as steel cools. Above 1200 °C, where no conductivity is published, that of 1200 °C
    decides, and errs on the safe side: austenite conducts better the hotter it is (from memory).
    """
    conductivity = metal.conductivity_w_m_k(min(hottest_c, metal.highest_conducting_c))
    half_m = section.volume_per_surface_mm / 1000.0
    return _exchange_w_m2_k(hottest_c, surroundings) * half_m / conductivity < THIN_BIOT


def cooling_curve(
    section: CoolingSection,
    from_c: float,
    to_c: float,
    surroundings: Surroundings = STILL_AIR,
    metal: Metal = STEEL,
) -> CoolingCurve:
    """The whole cooling from one temperature in °C to another; a single point when it is there already.

    Raises OutOfRange when it starts hotter, or ends colder, than anything is published for (a thin piece of
    steel 1394 °C, a thick one 1200 °C; 20 °C), and OutOfRange when it would have to become as cold as the
    air, or when section or surroundings cannot be.

    A round bar of 20 mm, from EN 1993-1-2 by quadrature:

    >>> curve = cooling_curve(CoolingSection(5, 10), 1200, 800)
    >>> round(curve.seconds, 2), round(curve.at(30).surface_c)
    (88.29, 1001)
    """
    if _is_there(section, from_c, to_c, surroundings, metal):
        return CoolingCurve((CoolingPoint(0.0, from_c, from_c),))
    if not is_thin(section, from_c, surroundings, metal):
        return _thick_curve(section, from_c, to_c, surroundings, metal)
    steps = math.ceil((from_c - to_c) / CURVE_STEP_C)
    points = [CoolingPoint(0.0, from_c, from_c)]
    for i in range(1, steps + 1):
        before, then_c = points[-1], from_c + (to_c - from_c) * i / steps
        taken = thin_seconds(section.volume_per_surface_mm, before.surface_c, then_c, surroundings, metal)
        points.append(CoolingPoint(before.seconds + taken, then_c, then_c))
    return CoolingCurve(tuple(points))


def curve_from_hottest(
    section: CoolingSection, from_c: float, to_c: float, surroundings: Surroundings, metal: Metal = STEEL
) -> tuple[CoolingCurve, bool]:
    """The cooling, and whether it begins hotter than can be reckoned, so that it lasts somewhat longer.

    Then it is reckoned from where the published conductivity ends, 1200 °C for steel. Raises OutOfRange as
    `cooling_curve` does.
    """
    try:
        return cooling_curve(section, from_c, to_c, surroundings, metal), False
    except OutOfRange:
        if from_c <= metal.highest_conducting_c:
            raise
        return cooling_curve(section, metal.highest_conducting_c, to_c, surroundings, metal), True


def soaking_minutes(
    section: CoolingSection,
    fire_c: float,
    margin_c: float,
    from_c: float = 20.0,
    *,
    gases: Surroundings = FORGE_FIRE,
    metal: Metal = STEEL,
) -> float:
    """The minutes until the middle of a piece is within `margin_c` of the fire's temperature in °C.

    0 when it is already. A piece is thin or thick as for cooling, by its Biot number where it is hottest.
    Raises OutOfRange for a margin that is not above 0, as no piece ever becomes as hot as its fire, for what
    cannot be, and when a thin piece of steel would become hotter than 1394 °C or a thick one,
    at its surface, hotter than 1200 °C, or when it starts below 20 °C.

    The fire is a hollow of one temperature all round that the piece radiates with, and whose gases it
    touches: an idealisation, to be checked against the first heats. A piece lying on the coals with one side
    in the air, or put in with others, takes longer.

    >>> round(soaking_minutes(CoolingSection(2.5, 5), 1250, 100), 2)
    1.37
    """
    if not math.isfinite(fire_c):
        raise OutOfRange(f"The temperature of the fire was expected, in °C, not {fire_c:g}.")
    if not 0.0 < margin_c < math.inf:
        raise OutOfRange(
            "No piece becomes as hot as its fire: the margin must be above 0, not {}.", celsius(margin_c)
        )
    fire = gases._replace(air_c=fire_c)
    check(section, fire)
    metal.specific_heat_j_kg_k(from_c)  # refuses what is not published
    to_c = fire_c - margin_c
    if from_c >= to_c:
        return 0.0
    metal.specific_heat_j_kg_k(to_c)
    if is_thin(section, to_c, fire, metal):
        return thin_seconds(section.volume_per_surface_mm, from_c, to_c, fire, metal) / 60.0
    return _thick_seconds(section, from_c, to_c, fire, metal) / 60.0


def thin_seconds(
    volume_per_surface_mm: float, from_c: float, to_c: float, surroundings: Surroundings, metal: Metal
) -> float:
    """The seconds that a piece of one temperature throughout takes, towards what surrounds it.

    The integral of ρ (V/A) c / (loss) over the temperature, which has no step in time: with
    y = ln|θ - θ_air| it is that of ρ (V/A) c / (coefficient of exchange), smooth down to the air. A share of
    1e-6 is the most that the quadrature errs by. `to_c` must lie between `from_c` and the surroundings.
    """
    return sum(
        _panel_seconds(volume_per_surface_mm, start, end, surroundings, metal)
        for start, end in _panels(from_c, to_c, surroundings.air_c, metal)
    )


def check(section: CoolingSection, surroundings: Surroundings) -> None:
    """Raises OutOfRange for a section or surroundings that cannot be."""
    check_size(section.volume_per_surface_mm, "volume per surface of the section")
    check_size(section.half_thickness_mm, "half thickness of the section")
    air_c, emissivity, convection, anvil_factor = surroundings
    if not -_KELVIN <= air_c < math.inf:
        raise OutOfRange(
            "The surroundings must be at {} or more, not at {}.", celsius(-_KELVIN), celsius(air_c)
        )
    if not 0.0 <= emissivity <= 1.0:
        raise OutOfRange(f"An emissivity lies from 0 to 1, not at {emissivity:g}; scaled steel has 0.8.")
    if not 0.0 <= convection < math.inf:
        raise OutOfRange(f"Convection takes 0 W/m²K or more, not {convection:g}; still air takes 10.")
    if emissivity == convection == 0.0:
        raise OutOfRange("A piece that neither radiates nor touches the air never cools; give one of them.")
    if not 1.0 <= anvil_factor < math.inf:
        raise OutOfRange(f"An anvil multiplies the heat lost by 1 or more, not by {anvil_factor:g}.")


def _is_there(
    section: CoolingSection, from_c: float, to_c: float, surroundings: Surroundings, metal: Metal
) -> bool:
    check(section, surroundings)
    metal.specific_heat_j_kg_k(max(from_c, metal.lowest_c))  # refuses what is too hot or not a number
    if not math.isfinite(to_c):
        raise OutOfRange(f"A temperature to cool to was expected, in °C, not {to_c:g}.")
    if from_c <= to_c:
        return True
    if to_c <= surroundings.air_c:
        raise OutOfRange(
            "Metal in air of {} never cools to {}; give a hotter end.",
            celsius(surroundings.air_c),
            celsius(to_c),
        )
    metal.specific_heat_j_kg_k(to_c)
    return False


def _exchange_w_m2_k(temperature_c: float, surroundings: Surroundings) -> float:
    air_c, emissivity, convection, anvil_factor = surroundings
    t, air = temperature_c + _KELVIN, air_c + _KELVIN
    radiation = emissivity * _STEFAN_BOLTZMANN_W_M2_K4 * (t + air) * (t * t + air * air)
    return anvil_factor * (convection + radiation)


def _panels(from_c: float, to_c: float, air_c: float, metal: Metal) -> Iterator[tuple[float, float]]:
    """The way from one temperature to another in pieces short enough for the quadrature."""
    low, high = min(from_c, to_c), max(from_c, to_c)
    ways = sorted((from_c, to_c, *(t for t in metal.breaks_c if low < t < high)), reverse=from_c > to_c)
    for start, end in pairwise(ways):
        ratio = (end - air_c) / (start - air_c)
        parts = math.ceil(-math.log(ratio)) or 1
        marks = [start, *(air_c + (start - air_c) * ratio ** (i / parts) for i in range(1, parts)), end]
        yield from pairwise(marks)


def _panel_seconds(
    volume_per_surface_mm: float, start_c: float, end_c: float, surroundings: Surroundings, metal: Metal
) -> float:
    air_c = surroundings.air_c
    ratio = (end_c - air_c) / (start_c - air_c)
    half = -math.log(ratio) / 2.0
    middle_c = (start_c - air_c) * math.sqrt(ratio)
    total = 0.0
    for node, weight in _GAUSS:
        t = air_c + middle_c * math.exp(node * half)
        total += weight * metal.specific_heat_j_kg_k(t) / _exchange_w_m2_k(t, surroundings)
    return metal.density_kg_m3 * volume_per_surface_mm / 1000.0 * half * total


def _thick_curve(
    section: CoolingSection, from_c: float, to_c: float, surroundings: Surroundings, metal: Metal
) -> CoolingCurve:
    points: list[CoolingPoint] = []
    cooling = moments(section.shape, from_c, lambda surface_c: heat_loss_w_m2(surface_c, surroundings), metal)
    while not points or points[-1].surface_c > to_c:
        points.append(CoolingPoint(*next(cooling)[:3]))
    end = CoolingCurve(tuple(points)).when(to_c)
    return CoolingCurve((*points[:-1], end._replace(surface_c=to_c)))


def _thick_seconds(
    section: CoolingSection, from_c: float, to_c: float, fire: Surroundings, metal: Metal
) -> float:
    before = Moment(0.0, from_c, from_c, 0.0, 0.0)
    for now in moments(section.shape, from_c, lambda surface_c: heat_loss_w_m2(surface_c, fire), metal):
        if now.middle_c >= to_c:
            share = (to_c - before.middle_c) / (now.middle_c - before.middle_c)
            return before.seconds + share * (now.seconds - before.seconds)
        before = now
    return before.seconds
