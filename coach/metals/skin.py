"""How deep a fire takes the carbon out of the skin of a steel.

The surface is held at no carbon at all, as an oxidising fire does; a deep reducing coal fire takes less, so
that every depth here is an upper bound where steel is austenite to its face. Below the 912 °C that iron
itself turns at a ferrite skin grows, which is not followed (published iron-carbon diagram, edition
not seen; confirmed). What
time and temperature did together is one number, the spread Σ D t in mm², which grows from heat to heat in
whatever order they come.

ISO 3887 (from memory) parts a skin into total decarburisation, where nothing but ferrite is left, and partial
decarburisation, down to where the core begins. There is no sharp end to it in Fick's law: a skin here ends
where a stated share of the carbon is left, nine tenths unless told otherwise.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from typing import Final, NamedTuple

from coach.metals.transformation import check_carbon
from coach.quantities.checks import check_size, check_temperature
from coach.quantities.figure import celsius
from coach.quantities.normal import quantile
from coach.quantities.refusal import OutOfRange

#: The coldest and the hottest austenite of the iron-carbon diagram, in °C (published iron-carbon diagram,
#: edition not seen; confirmed).
LOWEST_C: Final = 727.0
HIGHEST_C: Final = 1394.0

#: The share of its carbon with which steel counts as sound; judgement.
KEPT_SHARE: Final = 0.9
#: What is left on a face beyond the skin, in mm, so that the last grinding cleans it; judgement.
FINISH_MM: Final = 0.1

#: Absolute zero, and square mm to the square metre (by definition).
_COLDEST_C: Final = -273.15
_MM2_IN_M2: Final = 1e6
#: IUPAC atomic weights, g/mol (from memory).
_CARBON_G_MOL: Final = 12.011
_IRON_G_MOL: Final = 55.845


class Lying(NamedTuple):
    """The time one heat lies hot in the fire."""

    temperature_c: float
    minutes: float


def agren_m2_s(temperature_c: float, carbon_share: float) -> float:
    """Diffusivity of carbon in m²/s in austenite with `carbon_share` % of carbon by mass.

    D = 4.53e-7 [1 + y (1 - y) 8339.9 / T] exp[-(1/T - 2.221e-4) (17767 - 26436 y)], T in K, where y is the
    number of carbon atoms for each iron atom, x_C / (1 - x_C), in iron with nothing else in it. Given from
    727 to 1394 °C and from 0 to 2.14 %; raises OutOfRange elsewhere. It does not hold where there is ferrite:
    a mild steel between 727 °C and its A3 is reckoned as if it were austenite all the same. A whole profile
    reckoned with the D of the nominal carbon is an upper bound where the carbon leaves, for D falls with it:
    against D(C) the depth at which nine tenths are left comes out 5 to 25 % too great for 0.3 to 1.0 % of
    carbon at 850 to 1250 °C, and the depth at which half is left 10 to 65 % (measured in the tests).
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
    check_carbon(carbon_share)
    y = (carbon_share / _CARBON_G_MOL) / ((100.0 - carbon_share) / _IRON_G_MOL)
    return (
        4.53e-7
        * (1.0 + y * (1.0 - y) * 8339.9 / kelvin)
        * math.exp(-(1.0 / kelvin - 2.221e-4) * (17767.0 - 26436.0 * y))
    )


def spread_mm2(carbon_share: float, lyings: Iterable[Lying]) -> float:
    """Σ D t in mm² of a steel with `carbon_share` % of carbon, over all its times in the fire.

    D is `agren_m2_s` at the nominal carbon, which is too fast for the skin that has already lost some: what
    `skin_mm` makes of it is up to a quarter too deep for 0.3 to 1.0 % of carbon. Below 727 °C nothing is
    counted, though a ferrite skin forms slowly there and up to the A3 (judgement). Above 1394 °C the D of
    1394 °C is counted, which is too slow; steel melts or burns there in any case.
    Raises OutOfRange for carbon outside 0 to 2.14 %, a time below 0 and a temperature that is none.
    Source: of D, `agren_m2_s`; that D t adds up over changing temperature, J. Crank, The Mathematics of
    Diffusion, §7 (from memory).

    >>> round(spread_mm2(0.84, [Lying(1100, 3)] * 4), 4)
    0.0845
    """
    check_carbon(carbon_share)
    return math.fsum(_one_spread_mm2(carbon_share, lying) for lying in lyings)


def skin_mm(spread_mm2: float, kept_share: float = KEPT_SHARE) -> float:
    """Depth in mm at which `kept_share` of the carbon is left: 2 erf⁻¹(kept) sqrt(Σ D t).

    For a piece much thicker than the skin. It grows with the square root of the time. Raises OutOfRange for a
    spread below 0 and for a share that is not between 0 and 1.
    Source: Fick's second law for a semi-infinite solid with no carbon at its surface, W. D. Callister,
    Materials Science and Engineering, edition not seen, §5.4 (confirmed second-hand).

    >>> round(skin_mm(spread_mm2(0.84, [Lying(1100, 3)] * 4)), 2)
    0.68
    """
    _check_spread(spread_mm2)
    if not 0.0 < kept_share < 1.0:
        raise OutOfRange(f"A share of the carbon between 0 and 1 was expected, not {kept_share:g}.")
    return 2.0 * inverse_erf(kept_share) * math.sqrt(spread_mm2)


def thinned_mm2(spread_mm2: float, ratio: float) -> float:
    """The spread in mm² after forging a section to `ratio` of its thickness: ratio² Σ D t.

    A section that thins evenly takes every layer of its skin along, so that carbon which was at x is at
    ratio x. The profile erf(x / (2 sqrt(Σ D t))) keeps its form under that, with ratio² Σ D t in the place of
    Σ D t, and later heats go on from there. It holds for faces that stay plane, each with the ratio of the
    thickness across it; a corner, a fold or a bevel's edge is not followed. An upset, with a ratio above 1,
    thickens the skin. Raises OutOfRange for a spread below 0 and a ratio that is not above 0.
    Source: derived here (computed).

    >>> round(skin_mm(thinned_mm2(0.0842, 0.5)) / skin_mm(0.0842), 3)
    0.5
    """
    _check_spread(spread_mm2)
    if not 0.0 < ratio < math.inf:
        raise OutOfRange(
            f"A section is forged to a ratio of its thickness above 0, 0.5 for half of it, not to {ratio:g}."
        )
    return ratio * ratio * spread_mm2


def carbon_profile(carbon_share: float, spread_mm2: float, depths_mm: Iterable[float]) -> tuple[float, ...]:
    """Carbon in % at each depth in mm below a face: C0 erf(x / (2 sqrt(Σ D t))).

    Without any spread it is the nominal carbon everywhere; with some, none is left at the face itself.
    Raises OutOfRange for carbon outside 0 to 2.14 %, a spread below 0 and a depth below 0.
    Source: as `skin_mm`.

    >>> [round(share, 2) for share in carbon_profile(0.84, 0.0842, [0.0, 0.2, 0.67, 2.0])]
    [0.0, 0.31, 0.75, 0.84]
    """
    check_carbon(carbon_share)
    _check_spread(spread_mm2)
    return tuple(carbon_share * _kept_at(depth_mm, spread_mm2) for depth_mm in depths_mm)


def allowance_mm(skin_mm: float) -> float:
    """What to leave in mm on each face for the grinder: the skin, then FINISH_MM of sound steel.

    Raises OutOfRange for a skin below 0. Source: judgement.

    >>> round(allowance_mm(0.67), 2)
    0.77
    """
    check_size(skin_mm, "skin", may_be_nothing=True)
    return skin_mm + FINISH_MM


def inverse_erf(share: float) -> float:
    """The z whose erf is `share`, for 0 <= share < 1, to 1e-12.

    >>> round(inverse_erf(0.9), 5)
    1.16309
    """
    # The lower tail stands for the upper one, since 1 - share is exact where share is close to 1.
    return abs(quantile((1.0 - share) / 2.0)) / math.sqrt(2.0)


def _one_spread_mm2(carbon_share: float, lying: Lying) -> float:
    # Written so that a temperature or a time which is not a number is refused too.
    if not 0.0 <= lying.minutes < math.inf:
        raise OutOfRange(f"A time in the fire is 0 minutes or more, not {lying.minutes:g}.")
    if not _COLDEST_C < lying.temperature_c < math.inf:
        raise OutOfRange(
            "The temperature of the piece in the fire was expected in °C, not {}.",
            celsius(lying.temperature_c),
        )
    if lying.temperature_c < LOWEST_C:
        return 0.0
    d_m2_s = agren_m2_s(min(lying.temperature_c, HIGHEST_C), carbon_share)
    return d_m2_s * _MM2_IN_M2 * lying.minutes * 60.0


def _kept_at(depth_mm: float, spread_mm2: float) -> float:
    check_size(depth_mm, "depth", may_be_nothing=True)
    return math.erf(depth_mm / (2.0 * math.sqrt(spread_mm2))) if spread_mm2 > 0.0 else 1.0


def _check_spread(spread_mm2: float) -> None:
    if not 0.0 <= spread_mm2 < math.inf:
        raise OutOfRange(
            f"A spread of 0 mm² or more was expected, as `spread_mm2` gives, not {spread_mm2:g} mm²."
        )
