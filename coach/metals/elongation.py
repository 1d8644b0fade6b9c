"""How much longer steel is when it is hot.

EN 1993-1-2:2005, Eurocode 3 part 1-2, §3.4.1.1: the relative elongation of carbon steel from 20 °C. The
clause is written for structural steel while it heats; ELONGATION_DOUBT_SHARE covers high-carbon steel and
wrought iron. The published branches do not meet exactly at 750 °C (a step of −8e-6), and neither do these.
"""

from __future__ import annotations

from typing import Final

from coach.quantities.checks import check_temperature

LOWEST_C: Final = -20.0
REFERENCE_C: Final = 20.0
HIGHEST_C: Final = 1200.0

#: Shop judgement: the elongation of high-carbon steel and wrought iron is trusted to this share of itself.
ELONGATION_DOUBT_SHARE: Final = 0.10

_PLATEAU_FROM_C: Final = 750.0
_PLATEAU_TO_C: Final = 860.0


def elongation(temperature_c: float) -> float:
    """Relative elongation from 20 °C, as a plain ratio (0.0138 is 1.38 %).

    Published for 20 to 1200 °C. A cold shop counts as 20 °C: from -20 to 20 °C the answer is 0, which is
    wrong by less than 0.05 mm in 100 mm. Raises OutOfRange elsewhere.
    Source: EN 1993-1-2:2005 §3.4.1.1.

    >>> round(elongation(1000), 6)
    0.0138
    """
    _check(temperature_c)
    if temperature_c < REFERENCE_C:
        return 0.0
    if temperature_c < _PLATEAU_FROM_C:
        return 1.2e-5 * temperature_c + 0.4e-8 * temperature_c**2 - 2.416e-4
    if temperature_c <= _PLATEAU_TO_C:
        return 1.1e-2
    return 2e-5 * temperature_c - 6.2e-3


def elongation_slope(temperature_c: float) -> float:
    """Change of the elongation per °C: the derivative of `elongation`, branch by branch.

    It is 0 below 20 °C and on the plateau from 750 to 860 °C, where a wrong temperature costs nothing
    only as long as it is wrong within the plateau. Raises OutOfRange as `elongation` does.
    """
    _check(temperature_c)
    if temperature_c < REFERENCE_C:
        return 0.0
    if temperature_c < _PLATEAU_FROM_C:
        return 1.2e-5 + 0.8e-8 * temperature_c
    if temperature_c <= _PLATEAU_TO_C:
        return 0.0
    return 2e-5


def cold_size_mm(hot_mm: float, temperature_c: float) -> float:
    """The size at 20 °C, in mm, of what measures `hot_mm` at a temperature; raises OutOfRange.

    >>> round(cold_size_mm(200, 1000), 4)
    197.2776
    """
    return hot_mm / (1.0 + elongation(temperature_c))


def hot_size_mm(cold_mm: float, temperature_c: float) -> float:
    """The size at a temperature, in mm, of what measures `cold_mm` at 20 °C; raises OutOfRange.

    >>> round(hot_size_mm(200, 1000), 4)
    202.76
    """
    return cold_mm * (1.0 + elongation(temperature_c))


def _check(temperature_c: float) -> None:
    check_temperature(
        temperature_c,
        LOWEST_C,
        HIGHEST_C,
        "The elongation of steel is known from {}, not at {}; let the piece cool before it is measured.",
    )
