"""How long a piece takes to come to a temperature: the working time out of the fire, the heating time in it.

Every piece, thin or thick, is reckoned by conduction from its middle to its surface, in
`coach.fire.conduction`. The surface loses f · [h (θ - θ_air) + ε σ (T⁴ - T_air⁴)], the balance of
EN 1993-1-2 eq. (4.25) (confirmed second-hand). Every temperature asked for or told is that of the SURFACE,
which the smith forges and sees; the curve tells its middle besides. From 1200 °C the surface of a bar of
56 mm comes to 1150 °C while its mean loses 16 °C: with one temperature for the whole of it a welding heat
would be told three times too long.

Steel cooling in air gives back the heat of its transformation some 50 °C lower than it took it, and a quench
takes it later still (`coach.metals.cooling_steel`); it takes it, in the fire, at the published 735 °C.
"""

from __future__ import annotations

import math
from bisect import bisect_left, bisect_right
from collections.abc import Callable
from typing import Final, NamedTuple

from coach.fire.conduction import HalfSection, moments_to
from coach.metals.cooling_steel import cooling_steel
from coach.metals.thermal import STEEL, Metal
from coach.quantities.checks import check_size
from coach.quantities.figure import celsius
from coach.quantities.refusal import OutOfRange

#: CODATA 2018, exact since the units of 2019 (by definition).
_STEFAN_BOLTZMANN_W_M2_K4: Final = 5.670374419e-8
_KELVIN: Final = 273.15


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

    air_c: float = 20.0  # the air, and the walls that it radiates to (judgement)
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
    return _loss_to(surroundings)(temperature_c)


def cooling_curve(
    section: CoolingSection,
    from_c: float,
    to_c: float,
    surroundings: Surroundings = STILL_AIR,
    metal: Metal | None = None,
) -> CoolingCurve:
    """The whole cooling of the surface from one temperature in °C to another; without a metal, of steel.

    A single point when it is there already. Raises OutOfRange when it starts hotter, or ends colder, than
    anything is published for (1394 and 20 °C for steel), when it would have to become as cold as the air, or
    when section or surroundings cannot be.

    The surface of a round bar of 20 mm:

    >>> curve = cooling_curve(CoolingSection(5, 10), 1200, 800)
    >>> round(curve.seconds, 1), round(curve.at(30).surface_c)
    (84.4, 995)
    """
    metal = cooling_steel(from_c) if metal is None else metal
    if _is_there(section, from_c, to_c, surroundings, metal):
        return CoolingCurve((CoolingPoint(0.0, from_c, from_c),))
    run = moments_to(to_c, section.shape, from_c, _loss_to(surroundings), metal)
    points = [CoolingPoint(*moment[:3]) for moment in run]
    return CoolingCurve((*points[:-1], points[-1]._replace(surface_c=to_c)))


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

    0 when it is already. Raises OutOfRange for a margin that is not above 0, as no piece ever becomes as hot
    as its fire, for what cannot be, and when steel would become hotter than 1394 °C at its surface, or starts
    below 20 °C.

    The fire is a hollow of one temperature all round that the piece radiates with, and whose gases it
    touches: an idealisation, to be checked against the first heats. A piece lying on the coals with one side
    in the air, or put in with others, takes longer.

    >>> round(soaking_minutes(CoolingSection(2.5, 5), 1250, 100), 2)
    1.39
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
    run = moments_to(to_c, section.shape, from_c, _loss_to(fire), metal, middle=True)
    for moment in run:
        seconds = moment.seconds
    return seconds / 60.0


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


def _loss_to(surroundings: Surroundings) -> Callable[[float], float]:
    """What is lost to these surroundings, by the surface's temperature: it is asked thousands of times."""
    air_c, emissivity, convection, anvil_factor = surroundings
    radiates, air = emissivity * _STEFAN_BOLTZMANN_W_M2_K4, air_c + _KELVIN
    air_squared = air * air

    def loss_w_m2(temperature_c: float) -> float:
        t = temperature_c + _KELVIN
        exchange = anvil_factor * (convection + radiates * (t + air) * (t * t + air_squared))
        return exchange * (temperature_c - air_c)

    return loss_w_m2
