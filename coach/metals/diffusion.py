"""How fast carbon moves through austenite.

Fick's second law for a thick piece, with a diffusivity that does not change along the way. Every diffusivity
is in m²/s, every depth in m, every time in s and every carbon content in % by mass. None of it holds where
there is ferrite; a mild steel between 727 °C and its A3 is reckoned as if it were austenite all the same.
"""

from __future__ import annotations

import math
from typing import Final

from coach.metals.solidus import HIGHEST_CARBON_SHARE
from coach.quantities.refusal import Refusal

#: The coldest and the hottest austenite of the iron-carbon diagram, in °C.
LOWEST_C: Final = 727.0
HIGHEST_C: Final = 1394.0

_GAS_CONSTANT_J_MOL_K: Final = 8.314  # to no more figures than the energies it divides
_GAS_CONSTANT_CAL_MOL_K: Final = 1.987
_CARBON_G_MOL: Final = 12.011
_IRON_G_MOL: Final = 55.845

#: A wanted carbon content nearer than this to either end, as a share of the way, is that end.
_NEAREST_SHARE: Final = 1e-9


class OutOfField(Refusal):
    """A temperature or a carbon content at which there is no austenite; its text is one plain sentence."""


class NoProfile(Refusal):
    """A depth, time or carbon content no profile has; its text is one plain sentence."""


def agren_m2_s(temperature_c: float, carbon_share: float) -> float:
    """Diffusivity of carbon in m²/s in austenite with `carbon_share` % of carbon by mass.

    D = 4.53e-7 [1 + y (1 - y) 8339.9 / T] exp[-(1/T - 2.221e-4) (17767 - 26436 y)], T in K, where y is the
    number of carbon atoms for each iron atom, in iron with nothing else in it. Given from 727 to 1394 °C and
    from 0 to 2.14 %; raises OutOfField elsewhere. A whole profile reckoned with the D of the nominal carbon
    is an upper bound where the carbon leaves, for D falls with it: against D(C) the depth at which nine
    tenths are left comes out 5 to 25 % too great for 0.3 to 1.0 % of carbon at 850 to 1250 °C, and the depth
    at which half is left 10 to 65 % (measured in the tests).
    Source: J. Ågren, Scripta Metallurgica 20 (1986), 1507 (confirmed second-hand).

    >>> round(agren_m2_s(1000, 0.8) * 1e11, 2)
    4.4
    """
    kelvin = _austenite_k(temperature_c)
    y = _atoms_for_each_iron(carbon_share)
    return (
        4.53e-7
        * (1.0 + y * (1.0 - y) * 8339.9 / kelvin)
        * math.exp(-(1.0 / kelvin - 2.221e-4) * (17767.0 - 26436.0 * y))
    )


def tibbetts_m2_s(temperature_c: float, carbon_share: float) -> float:
    """Diffusivity of carbon in m²/s in austenite with `carbon_share` % of carbon by mass.

    D = 0.47 exp(-1.6 C) exp[-(37000 - 6600 C) / (1.987 T)] in cm²/s, T in K. Given from 727 to 1394 °C and
    from 0 to 2.14 %; raises OutOfField elsewhere. A second opinion on `agren_m2_s`: from 900 to 1200 °C and
    up to 0.9 % of carbon the two differ by at most 13 %; in colder or richer austenite by more.
    Source: G. G. Tibbetts, Journal of Applied Physics 51 (1980), 4813 (from memory).

    >>> round(tibbetts_m2_s(1000, 0.8) * 1e11, 2)
    4.68
    """
    kelvin = _austenite_k(temperature_c)
    _check_carbon(carbon_share)
    return (
        0.47e-4
        * math.exp(-1.6 * carbon_share)
        * math.exp(-(37000.0 - 6600.0 * carbon_share) / (_GAS_CONSTANT_CAL_MOL_K * kelvin))
    )


def arrhenius_m2_s(temperature_c: float, d0_m2_s: float = 2.3e-5, q_j_mol: float = 148_000.0) -> float:
    """Diffusivity of carbon in m²/s in austenite of little carbon: D0 exp(-Q / (R T)), T in K.

    Given from 727 to 1394 °C; raises OutOfField elsewhere and for a D0 or Q that is not above 0. It knows
    nothing of the carbon content: at 0.8 % it is half of `agren_m2_s`, and a skin reckoned with it is a third
    too thin.
    Source of D0 and Q: W. D. Callister, Materials Science and Engineering, table of diffusion data (from
    memory; they give back the diffusivities the book prints).

    >>> round(arrhenius_m2_s(1100) * 1e11, 3)
    5.39
    """
    kelvin = _austenite_k(temperature_c)
    if not (0.0 < d0_m2_s < math.inf and 0.0 < q_j_mol < math.inf):
        raise OutOfField(
            f"A diffusivity is reckoned from a D0 and an energy above 0, not from {d0_m2_s:g} m²/s and "
            f"{q_j_mol:g} J/mol."
        )
    return d0_m2_s * math.exp(-q_j_mol / (_GAS_CONSTANT_J_MOL_K * kelvin))


def fick_share(depth_m: float, d_m2_s: float, seconds: float) -> float:
    """How much of the way from its first carbon to that of the surface a depth has gone, 0 to 1.

    (C - C0) / (Cs - C0) = 1 - erf(x / (2 sqrt(D t))), for a piece much thicker than the depth, whose surface
    is held at Cs. The surface itself has gone all the way from the first instant. Raises NoProfile for a
    depth or time below 0 and for a diffusivity that is not above 0.
    Source: Fick's second law for a semi-infinite solid, W. D. Callister, Materials Science and Engineering,
    §5.4 (confirmed second-hand).

    >>> round(fick_share(0.5e-3, 1.6e-11, 25_370), 4)
    0.5789
    """
    _check_measure("depth", depth_m, "m")
    if depth_m == 0.0:
        _spread_m2(d_m2_s, seconds)
        return 1.0
    return math.erfc(_reduced(depth_m, _spread_m2(d_m2_s, seconds)))


def carbon_at(
    depth_m: float, start_share: float, surface_share: float, d_m2_s: float, seconds: float
) -> float:
    """Carbon in % at a depth of a piece that began at `start_share` and is held at `surface_share` outside.

    C0 + (Cs - C0) `fick_share`, and its range and source. Raises NoProfile as it does, and for a carbon
    content outside 0 to 2.14 %.

    >>> round(carbon_at(0.5e-3, 0.25, 1.20, 1.6e-11, 25_370), 3)
    0.8
    """
    _check_profile_carbon(start_share, surface_share)
    share = fick_share(depth_m, d_m2_s, seconds)
    # Weighed this way, neither end is missed by a rounding.
    return start_share * (1.0 - share) + surface_share * share


def seconds_for(
    depth_m: float, wanted_share: float, start_share: float, surface_share: float, d_m2_s: float
) -> float:
    """Seconds until a depth has `wanted_share` % of carbon: x² / (4 D z²), erf z = (C - Cs) / (C0 - Cs).

    The inverse of `carbon_at`, with its range, source and errors; raises NoProfile also for a wanted carbon
    that is not between the first and that of the surface, which no time brings about.

    >>> round(seconds_for(0.5e-3, 0.80, 0.25, 1.20, 1.6e-11) / 3600, 3)
    7.047
    """
    _check_measure("depth", depth_m, "m")
    _check_diffusivity(d_m2_s)
    z = inverse_erf(_erf_of(wanted_share, start_share, surface_share))
    return depth_m * depth_m / (4.0 * d_m2_s * z**2)


def depth_for(
    wanted_share: float, start_share: float, surface_share: float, d_m2_s: float, seconds: float
) -> float:
    """Depth in m at which there is `wanted_share` % of carbon: 2 z sqrt(D t), erf z = (C - Cs) / (C0 - Cs).

    The inverse of `carbon_at`, with its range, source and errors; raises NoProfile also for a wanted carbon
    that is not between the first and that of the surface, which no depth has.

    >>> round(depth_for(0.15, 0.35, 0.0, 6.9e-11, 36_000) * 1000, 4)
    1.2614
    """
    spread_m2 = _spread_m2(d_m2_s, seconds)
    z = inverse_erf(_erf_of(wanted_share, start_share, surface_share))
    return 2.0 * z * math.sqrt(spread_m2)


def couple_carbon(
    distance_m: float, near_share: float, far_share: float, d_m2_s: float, seconds: float
) -> float:
    """Carbon in % beside a weld line; a distance below 0 lies on the near side, above 0 on the far one.

    C = (C1 + C2)/2 - (C1 - C2)/2 erf(x / (2 sqrt(D t))), for two pieces much thicker than the distance. The
    line itself has the mean, always. Raises NoProfile for a distance that is not a number, a time below 0, a
    diffusivity that is not above 0 and a carbon content outside 0 to 2.14 %.
    Source: the diffusion couple of J. Crank, The Mathematics of Diffusion, §2 (from memory).

    >>> [round(couple_carbon(x / 1000, 0.84, 0.03, 5.39e-11, 1800), 3) for x in (-0.5, 0, 0.5)]
    [0.736, 0.435, 0.134]
    """
    if not math.isfinite(distance_m):
        raise NoProfile(f"A distance from the weld line is a number of m, not {distance_m:g}.")
    _check_profile_carbon(near_share, far_share)
    spread_m2 = _spread_m2(d_m2_s, seconds)
    if distance_m == 0.0:
        return 0.5 * near_share + 0.5 * far_share
    crossed = 0.5 * math.erfc(_reduced(abs(distance_m), spread_m2))
    own_share, other_share = (near_share, far_share) if distance_m < 0.0 else (far_share, near_share)
    return own_share * (1.0 - crossed) + other_share * crossed


def inverse_erf(share: float) -> float:
    """The z whose erf is `share`, for 0 <= share < 1, to 1e-12; raises NoProfile elsewhere.

    >>> round(inverse_erf(0.9), 5)
    1.16309
    """
    if not 0.0 <= share < 1.0:
        raise NoProfile(f"A share from 0 to less than 1 was expected, not {share:g}, which no depth has.")
    # Imported here to keep the start-up quick: it brings decimal, fractions and random along.
    from statistics import NormalDist

    # The lower tail stands for the upper one, since 1 - share is exact where share is close to 1.
    return abs(NormalDist().inv_cdf((1.0 - share) / 2.0)) / math.sqrt(2.0)


def _reduced(depth_m: float, spread_m2: float) -> float:
    """A depth counted in the reach of the carbon; without any time nothing reaches it."""
    return depth_m / (2.0 * math.sqrt(spread_m2)) if spread_m2 > 0.0 else math.inf


def _erf_of(wanted_share: float, start_share: float, surface_share: float) -> float:
    """The share of the way from the surface's carbon back to the first one."""
    _check_profile_carbon(wanted_share, start_share, surface_share)
    way = start_share - surface_share
    share = (wanted_share - surface_share) / way if way else math.nan
    if not _NEAREST_SHARE <= share <= 1.0 - _NEAREST_SHARE:
        raise NoProfile(
            f"A carbon content between the {start_share:g} % inside and the {surface_share:g} % at the "
            f"surface was expected, not {wanted_share:g} %, which no depth has."
        )
    return share


def _spread_m2(d_m2_s: float, seconds: float) -> float:
    _check_diffusivity(d_m2_s)
    _check_measure("time", seconds, "s")
    return d_m2_s * seconds


def _austenite_k(temperature_c: float) -> float:
    # Written so that a temperature which is not a number is refused too.
    if not LOWEST_C <= temperature_c <= HIGHEST_C:
        raise OutOfField(
            f"Carbon is followed through austenite, from {LOWEST_C:.0f} to {HIGHEST_C:.0f} °C, not at "
            f"{temperature_c:.0f} °C; count what is colder as no time at all."
        )
    return temperature_c + 273.15


def _atoms_for_each_iron(carbon_share: float) -> float:
    """Carbon atoms for each iron atom, x_C / (1 - x_C), in iron with nothing but carbon in it."""
    _check_carbon(carbon_share)
    return (carbon_share / _CARBON_G_MOL) / ((100.0 - carbon_share) / _IRON_G_MOL)


def _check_carbon(carbon_share: float) -> None:
    if not 0.0 <= carbon_share <= HIGHEST_CARBON_SHARE:
        raise OutOfField(
            f"Austenite holds 0 to {HIGHEST_CARBON_SHARE} % of carbon, not {carbon_share:g} %; give it "
            "in per cent, 0.84 for a steel of 84 points."
        )


def _check_profile_carbon(*carbon_shares: float) -> None:
    for carbon_share in carbon_shares:
        if not 0.0 <= carbon_share <= HIGHEST_CARBON_SHARE:
            raise NoProfile(
                f"A profile lies from 0 to {HIGHEST_CARBON_SHARE} % of carbon, not at {carbon_share:g} %; "
                "give it in per cent, 0.84 for a steel of 84 points."
            )


def _check_diffusivity(d_m2_s: float) -> None:
    if not 0.0 < d_m2_s < math.inf:
        raise NoProfile(f"A diffusivity is above 0 m²/s, about 1e-10 at a yellow heat, not {d_m2_s:g} m²/s.")


def _check_measure(what: str, size: float, unit: str) -> None:
    if not 0.0 <= size < math.inf:
        raise NoProfile(f"A {what} of 0 {unit} or more was expected, not {size:g} {unit}.")
