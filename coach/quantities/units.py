"""What one unit is in another, exactly: a table of the shop's own units, and pint for whatever it lacks."""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from typing import TYPE_CHECKING, Any, Final, Literal, NamedTuple, TypeAlias

if TYPE_CHECKING:
    from pint import UnitRegistry

System: TypeAlias = Literal["mm", "in"]
"""The units that a person types and reads: `in` also stands for pounds, ounces and °F."""


class _Unit(NamedTuple):
    """How a number of one unit becomes one of the base unit of its kind: times slope, plus zero."""

    base: str
    slope: Fraction
    zero: Fraction = Fraction(0)


# Inch, foot, ounce and pound: the international yard and pound agreement of 1959 (1 yd = 0.9144 m and
# 1 lb = 0.453 592 37 kg exactly), as restated in NIST SP 811 (2008), appendix B. Minute, hour and the degree
# Celsius: BIPM SI Brochure, 9th edition (2019), table 8 and section 2.3.1. Fahrenheit: t/°F = 1.8 t/°C + 32.
_UNITS: Final = {
    "mm": _Unit("mm", Fraction(1)),
    "cm": _Unit("mm", Fraction(10)),
    "m": _Unit("mm", Fraction(1000)),
    "in": _Unit("mm", Fraction("25.4")),
    "ft": _Unit("mm", Fraction("304.8")),
    "g": _Unit("g", Fraction(1)),
    "kg": _Unit("g", Fraction(1000)),
    "lb": _Unit("g", Fraction("453.59237")),
    "oz": _Unit("g", Fraction("453.59237") / 16),
    "s": _Unit("s", Fraction(1)),
    "min": _Unit("s", Fraction(60)),
    "h": _Unit("s", Fraction(3600)),
    "degC": _Unit("degC", Fraction(1)),
    "degF": _Unit("degC", Fraction(5, 9), Fraction(-160, 9)),
}
KNOWN: Final = tuple(_UNITS)
"""The units that are converted without waking pint, which takes longer to load than a plan to reckon."""


def convert(number: Fraction, unit: str, wanted: str) -> Fraction:
    """Return exactly how many `wanted` are `number` of `unit`.

    Units: KNOWN (degrees are temperatures, not differences), and any other that pint knows by this name.
    pint's errors pass through for a unit that it does not know, and for two units of different kinds.
    """
    if unit == wanted:
        return number
    one, other = _UNITS.get(unit), _UNITS.get(wanted)
    if one is None or other is None or one.base != other.base:
        slope, zero = _line(unit, wanted)
        return slope * number + zero
    return (one.slope * number + one.zero - other.zero) / other.slope


@cache
def _registry() -> UnitRegistry[Any]:
    from pint import UnitRegistry

    return UnitRegistry(non_int_type=Fraction)


@cache
def _line(unit: str, wanted: str) -> tuple[Fraction, Fraction]:
    """Return slope and zero of the straight line that takes a number of `unit` to a number of `wanted`."""
    registry = _registry()
    zero = Fraction(registry.Quantity(Fraction(0), unit).to(wanted).magnitude)
    one = Fraction(registry.Quantity(Fraction(1), unit).to(wanted).magnitude)
    return one - zero, zero
