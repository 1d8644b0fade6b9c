"""What one unit is in another, exactly, held by pint and asked of it only once for each pair."""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from typing import TYPE_CHECKING, Any, Final

if TYPE_CHECKING:
    from pint import UnitRegistry

# Inch, foot, ounce and pound: the international yard and pound agreement of 1959 (1 yd = 0.9144 m and
# 1 lb = 0.453 592 37 kg exactly), as restated in NIST SP 811 (2008), appendix B. Minute, hour and the degree
# Celsius: BIPM SI Brochure, 9th edition (2019), table 8 and section 2.3.1. Fahrenheit: t/°F = 1.8 t/°C + 32.
# pint's own list of about a thousand units takes fifty times as long to read as these.
_DEFINITIONS: Final = (
    "metre = [length] = m",
    "centimetre = metre / 100 = cm",
    "millimetre = metre / 1000 = mm",
    "inch = 25.4 * millimetre = in",
    "foot = 12 * inch = ft",
    "gram = [mass] = g",
    "kilogram = 1000 * gram = kg",
    "pound = 453.59237 * gram = lb",
    "ounce = pound / 16 = oz",
    "second = [time] = s",
    "minute = 60 * second = min",
    "hour = 60 * minute = h",
    "kelvin = [temperature]; offset: 0 = K",
    "degree_Celsius = kelvin; offset: 273.15 = degC",
    "degree_Fahrenheit = 5 / 9 * kelvin; offset: 233.15 + 200 / 9 = degF",
)


@cache
def _registry() -> UnitRegistry[Any]:
    from pint import UnitRegistry

    registry: UnitRegistry[Any] = UnitRegistry(None, non_int_type=Fraction)
    registry.load_definitions(_DEFINITIONS)
    return registry


@cache
def _line(unit: str, wanted: str) -> tuple[Fraction, Fraction]:
    """Return slope and zero of the straight line that takes a number of `unit` to a number of `wanted`."""
    registry = _registry()
    zero = Fraction(registry.Quantity(Fraction(0), unit).to(wanted).magnitude)
    one = Fraction(registry.Quantity(Fraction(1), unit).to(wanted).magnitude)
    return one - zero, zero


def convert(number: Fraction, unit: str, wanted: str) -> Fraction:
    """Return exactly how many `wanted` are `number` of `unit`.

    Units: mm, cm, m, in, ft; g, kg, oz, lb; s, min, h; degC, degF (temperatures, not differences).
    pint's errors pass through for any other unit, and for two units of different kinds.
    """
    if unit == wanted:
        return number
    slope, zero = _line(unit, wanted)
    return slope * number + zero
