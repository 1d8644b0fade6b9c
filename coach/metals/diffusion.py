"""How fast carbon moves through austenite.

Every diffusivity is in m²/s and every carbon content in % by mass. None of it holds where there is ferrite; a
mild steel between 727 °C and its A3 is reckoned as if it were austenite all the same.
"""

from __future__ import annotations

import math
from typing import Final

from coach.metals.solidus import check_carbon
from coach.quantities.checks import check_temperature

#: The coldest and the hottest austenite of the iron-carbon diagram, in °C.
LOWEST_C: Final = 727.0
HIGHEST_C: Final = 1394.0

_CARBON_G_MOL: Final = 12.011
_IRON_G_MOL: Final = 55.845


def agren_m2_s(temperature_c: float, carbon_share: float) -> float:
    """Diffusivity of carbon in m²/s in austenite with `carbon_share` % of carbon by mass.

    D = 4.53e-7 [1 + y (1 - y) 8339.9 / T] exp[-(1/T - 2.221e-4) (17767 - 26436 y)], T in K, where y is the
    number of carbon atoms for each iron atom, in iron with nothing else in it. Given from 727 to 1394 °C and
    from 0 to 2.14 %; raises OutOfRange elsewhere. A whole profile reckoned with the D of the nominal carbon
    is an upper bound where the carbon leaves, for D falls with it: against D(C) the depth at which nine
    tenths are left comes out 5 to 25 % too great for 0.3 to 1.0 % of carbon at 850 to 1250 °C, and the depth
    at which half is left 10 to 65 % (measured in the tests).
    Source: J. Ågren, Scripta Metallurgica 20 (1986), 1507 (confirmed second-hand).

    >>> round(agren_m2_s(1000, 0.8) * 1e11, 2)
    4.4
    """
    check_temperature(
        temperature_c,
        LOWEST_C,
        HIGHEST_C,
        "Carbon is followed through austenite, from {}, not at {}; count what is colder as no time at all.",
    )
    kelvin = temperature_c + 273.15
    y = _atoms_for_each_iron(carbon_share)
    return (
        4.53e-7
        * (1.0 + y * (1.0 - y) * 8339.9 / kelvin)
        * math.exp(-(1.0 / kelvin - 2.221e-4) * (17767.0 - 26436.0 * y))
    )


def _atoms_for_each_iron(carbon_share: float) -> float:
    """Carbon atoms for each iron atom, x_C / (1 - x_C), in iron with nothing but carbon in it."""
    check_carbon(carbon_share)
    return (carbon_share / _CARBON_G_MOL) / ((100.0 - carbon_share) / _IRON_G_MOL)
