"""The thermal properties of carbon steel: the heat it holds, how it conducts, how much longer it is hot.

Two published sources, joined at 1200 °C:

- from 20 to 1200 °C, EN 1993-1-2:2005, Eurocode 3 part 1-2, §3.4.1.1 to §3.4.1.3 (confirmed second-hand:
  a reprint of the clause; EN 1993-1-2:2024 replaced it);
- above 1200 up to 1394 °C, where pure iron stops being austenite, the specific heat of iron as austenite:
  A. T. Dinsdale, SGTE data for pure elements, CALPHAD 15 (1991), p. 317 (from memory), while the
  elongation goes on straight (judgement). It joins the other
  with 652 J/kgK to its 650. For conductivity there is no second source: STEEL conducts there as at 1200 °C
  (judgement), while austenite conducts better the hotter it is (from memory).

The clause is for structural steel on heating. Its peak at 735 °C is the heat of the transformation, which
air-cooled steel gives back some 50 °C lower. It publishes steps too: at 600 and 900 °C in the specific heat,
at 800 °C in the conductivity. High-carbon steel and wrought iron may stray
from it by a tenth in the heat of a whole cooling and by 15 % in the conductivity (judgement), and by
ELONGATION_DOUBT_SHARE in length, whose published branches do not meet exactly at 750 °C (a step of −8e-6).
"""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Final, NamedTuple

from coach.quantities.checks import check_temperature

#: A cold shop counts as 20 °C down to this (judgement).
COLD_SHOP_C: Final = -20.0
#: EN 1993-1-2:2005 §3.4.1, which EN 1993-1-2:2024 replaced: from 20 to 1200 °C (confirmed second-hand).
REFERENCE_C: Final = 20.0
HIGHEST_C: Final = 1200.0

#: Shop judgement: the elongation of high-carbon steel and wrought iron is trusted to this share of itself.
ELONGATION_DOUBT_SHARE: Final = 0.10

#: Where the branches of EN 1993-1-2:2005 §3.4.1.1 meet (confirmed second-hand).
_PLATEAU_FROM_C: Final = 750.0
_PLATEAU_TO_C: Final = 860.0

#: The lowest and highest temperatures for which anything here is told, in °C; HIGHEST_C is the standard's:
#: where pure iron stops being austenite, an encyclopaedia on the working of iron, undated (confirmed
#: second-hand).
LOWEST_C: Final = REFERENCE_C
HIGHEST_AUSTENITE_C: Final = 1394.0

#: EN 1993-1-1:2005 §3.2.2, which EN 1993-1-1:2022 replaced (confirmed second-hand), at 20 °C.
DENSITY_KG_M3: Final = 7850.0

#: Where the branches of EN 1993-1-2:2005 §3.4.1.2 and §3.4.1.3 meet (confirmed second-hand).
_PEAK_FROM_C: Final = 600.0
_PEAK_C: Final = 735.0
_PEAK_TO_C: Final = 900.0
_LEVEL_CONDUCTIVITY_FROM_C: Final = 800.0
#: 0 °C in K (by definition).
_KELVIN: Final = 273.15
#: IUPAC atomic weight of iron, kg/mol (from memory).
_IRON_KG_MOL: Final = 0.055845


class Metal(NamedTuple):
    """What the reckoning of heat asks of a metal; STEEL has the published, of any density."""

    specific_heat_j_kg_k: Callable[[float], float]  # of a temperature in °C, as are the next two
    enthalpy_j_kg: Callable[[float], float]  # the integral of the specific heat
    conductivity_w_m_k: Callable[[float], float]
    density_kg_m3: float  # cold, as sizes are cold sizes
    lowest_c: float  # nothing is published below
    highest_c: float  # nor above


def specific_heat_j_kg_k(temperature_c: float) -> float:
    """The heat that warms 1 kg of steel by 1 °C, in J/kgK, from 20 to 1394 °C; raises OutOfRange.

    With θ in °C, EN 1993-1-2 §3.4.1.2 (confirmed second-hand):
    from 20 to 600, 425 + 0.773 θ - 1.69e-3 θ² + 2.22e-6 θ³; to 735, 666 + 13002 / (738 - θ);
    to 900, 545 + 17820 / (θ - 731); to 1200, 650. Above 1200 that of pure iron as austenite, from its Gibbs
    energy in J/mol, G = -236.7 + 132.416 T - 24.6643 T ln T - 0.00375752 T² - 5.8927e-8 T³ + 77359 / T with T
    in K, by c = -T G″ / M with M = 55.845 g/mol: Dinsdale 1991 (from memory).

    >>> [round(specific_heat_j_kg_k(t), 1) for t in (20, 700, 735, 1000, 1300)]
    [439.8, 1008.2, 5000.0, 650.0, 667.9]
    """
    _check(temperature_c, "specific heat", HIGHEST_AUSTENITE_C)
    t = temperature_c
    if t < _PEAK_FROM_C:
        return 425.0 + t * (0.773 + t * (-1.69e-3 + t * 2.22e-6))
    if t < _PEAK_C:
        return 666.0 + 13002.0 / (738.0 - t)
    if t < _PEAK_TO_C:
        return 545.0 + 17820.0 / (t - 731.0)
    if t <= HIGHEST_C:
        return 650.0
    t += _KELVIN
    return (24.6643 + 2 * 0.00375752 * t + 6 * 5.8927e-8 * t**2 - 2 * 77359.0 / t**2) / _IRON_KG_MOL


def enthalpy_j_kg(temperature_c: float) -> float:
    """The heat that brings 1 kg of steel from 20 °C to a temperature, in J/kg, up to 1394 °C.

    The integral of `specific_heat_j_kg_k`, in closed form branch by branch, from the same sources.
    Raises OutOfRange.

    >>> round(enthalpy_j_kg(1200), 1)
    827063.8
    """
    _check(temperature_c, "heat content", HIGHEST_AUSTENITE_C)
    if temperature_c < _PEAK_FROM_C:
        return _to_600(temperature_c) - _AT_20
    if temperature_c < _PEAK_C:
        return _to_735(temperature_c) - _AT_600
    if temperature_c < _PEAK_TO_C:
        return _to_900(temperature_c) - _AT_735
    if temperature_c <= HIGHEST_C:
        return 650.0 * temperature_c - _AT_900
    return _austenite(temperature_c) - _AT_1200


def conductivity_w_m_k(temperature_c: float) -> float:
    """How steel conducts heat, in W/mK, from 20 to 1200 °C; raises OutOfRange.

    With θ in °C: 54 - 0.0333 θ below 800, 27.3 from there. A reprint has 0.033, which would miss the 27.3.
    Source: EN 1993-1-2 §3.4.1.3 (confirmed second-hand).

    >>> round(conductivity_w_m_k(600), 2)
    34.02
    """
    _check(temperature_c, "conductivity", HIGHEST_C)
    if temperature_c < _LEVEL_CONDUCTIVITY_FROM_C:
        return 54.0 - 3.33e-2 * temperature_c
    return 27.3


def elongation(temperature_c: float) -> float:
    """Relative elongation from 20 °C, as a plain ratio (0.0138 is 1.38 %).

    Published for 20 to 1200 °C; up to 1394 °C austenite is taken to go on as it does below
    (judgement: its lattice by X-rays agrees to 4 %). A cold shop counts as 20 °C: from -20 to 20 °C the
    answer is 0, which is wrong by less than 0.05 mm in 100 mm. Raises OutOfRange elsewhere.
    Source: EN 1993-1-2:2005 §3.4.1.1 (confirmed second-hand).

    >>> round(elongation(1000), 6)
    0.0138
    """
    constant, linear, square = _length_branch(temperature_c)
    return linear * temperature_c + square * temperature_c**2 + constant


def elongation_slope(temperature_c: float) -> float:
    """Change of the elongation per °C: the derivative of `elongation`, branch by branch.

    It is 0 below 20 °C and on the plateau from 750 to 860 °C, where a wrong temperature costs nothing
    only as long as it is wrong within the plateau. Raises OutOfRange as `elongation` does.
    """
    _, linear, square = _length_branch(temperature_c)
    return linear + 2.0 * square * temperature_c


def _to_600(t: float) -> float:
    return t * (425.0 + t * (0.773 / 2 + t * (-1.69e-3 / 3 + t * 2.22e-6 / 4)))


def _to_735(t: float) -> float:
    return 666.0 * t - 13002.0 * math.log(738.0 - t)


def _to_900(t: float) -> float:
    return 545.0 * t + 17820.0 * math.log(t - 731.0)


def _austenite(temperature_c: float) -> float:
    t = temperature_c + _KELVIN
    # G - T G′; its constant goes out in the difference.
    return (t * (24.6643 + t * (0.00375752 + t * 2 * 5.8927e-8)) + 2 * 77359.0 / t) / _IRON_KG_MOL


# What each antiderivative gives too much, so that a branch begins where the one before it ends (computed).
_AT_20: Final = _to_600(REFERENCE_C)
_AT_600: Final = _to_735(_PEAK_FROM_C) - (_to_600(_PEAK_FROM_C) - _AT_20)
_AT_735: Final = _to_900(_PEAK_C) - (_to_735(_PEAK_C) - _AT_600)
_AT_900: Final = 650.0 * _PEAK_TO_C - (_to_900(_PEAK_TO_C) - _AT_735)
_AT_1200: Final = _austenite(HIGHEST_C) - (650.0 * HIGHEST_C - _AT_900)


def _check(temperature_c: float, what: str, highest_c: float) -> None:
    published = (
        f"The {what} of steel is published from {{}}, not at {{}}; give a temperature within that range."
    )
    check_temperature(temperature_c, LOWEST_C, highest_c, published)


def _length_branch(temperature_c: float) -> tuple[float, float, float]:
    """The constant, linear and square part of the elongation's branch at a temperature."""
    check_temperature(
        temperature_c,
        COLD_SHOP_C,
        HIGHEST_AUSTENITE_C,
        "The elongation of steel is known from {}, not at {}; let the piece cool before it is measured.",
    )
    if temperature_c < REFERENCE_C:
        return 0.0, 0.0, 0.0
    if temperature_c < _PLATEAU_FROM_C:
        return -2.416e-4, 1.2e-5, 0.4e-8
    if temperature_c <= _PLATEAU_TO_C:
        return 1.1e-2, 0.0, 0.0
    return -6.2e-3, 2e-5, 0.0


def _conducting_w_m_k(temperature_c: float) -> float:
    return conductivity_w_m_k(min(temperature_c, HIGHEST_C))


STEEL: Final = Metal(
    specific_heat_j_kg_k=specific_heat_j_kg_k,
    enthalpy_j_kg=enthalpy_j_kg,
    conductivity_w_m_k=_conducting_w_m_k,
    density_kg_m3=DENSITY_KG_M3,
    lowest_c=LOWEST_C,
    highest_c=HIGHEST_AUSTENITE_C,
)
