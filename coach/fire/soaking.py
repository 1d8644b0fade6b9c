"""The heating time: how long a piece lies in the fire until its middle is as hot as it must be.

The fire is a hollow of one temperature all round that the piece radiates with, and whose gases it touches:
an idealisation, to be checked against the first heats. A piece lying on the coals with one side in the air,
or put in with others, takes longer.
"""

from __future__ import annotations

import math
from typing import Final

from coach.fire.conduction import Moment, moments
from coach.fire.cooling import CoolingSection, Surroundings, check, heat_loss_w_m2, is_thin, thin_seconds
from coach.metals.thermal import STEEL, Metal
from coach.quantities.figure import celsius
from coach.quantities.refusal import OutOfRange

#: Scaled steel, 0.7 to 0.9 (from memory), in the gases of a forge fire, a little more than the 25 W/m²K that
#: EN 1991-1-2 gives to the gases of a burning room (judgement; from memory).
FORGE_FIRE: Final = Surroundings(emissivity=0.8, convection_w_m2_k=30.0)


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

    Sources: the balance and the limit of `coach.fire.cooling`.

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
