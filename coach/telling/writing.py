"""How sizes are written for a person to read: never finer than forge work can be measured.

Halves are rounded away from zero, as on a drawing. What is written here can be read back by the readers of
`coach.quantities`, as long as it is within their bounds. What is not finite is not written: every writer
raises ValueError for it.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from typing import Final

from coach.quantities.limits import Limits
from coach.quantities.units import System, convert

MINUS: Final = "\N{MINUS SIGN}"


@dataclass(frozen=True, slots=True)
class Shown:
    """How the user wants sizes shown."""

    system: System = "mm"
    fraction: int = 32  # inches to the nearest 1/16 or 1/32

    def __post_init__(self) -> None:
        if self.system not in ("mm", "in"):
            raise ValueError(f"sizes are shown in mm or in, not in {self.system!r}")
        if self.fraction not in (16, 32):
            raise ValueError(f"inches are shown in sixteenths or thirty-seconds, not in 1/{self.fraction}")


METRIC: Final = Shown()

#: Up to so long a time is told in seconds alone, as one would say it (our choice).
_SECONDS_UP_TO_S = 90
#: A limit in fractions of an inch lies beyond the true one by no more than a tenth of the give or take, which
#: gauges are held to as well (common practice, no source), and never by more than this (judgement).
_MOST_BEYOND_MM, _BEYOND_SHARE = Fraction(1, 10), Fraction(1, 20)
#: Where fractions leave less than so much of what is allowed, it is told in decimals (our choice).
_ALLOWED_SHARE = Fraction(3, 4)


def write_length(mm: float, shown: Shown = METRIC, *, unit: bool = True) -> str:
    """Return a length in mm as text, such as `31.5 mm`, `142.5 mm` or `1 1/4 in`.

    Millimetres are given to 0.1 below 100 mm, to 0.5 below 1000 mm and to 1 above: a calliper, a rule, a
    tape. Inches are given to the nearest 1/16 or 1/32, reduced. What rounds to zero has no sign.
    """
    exact = _exact(mm)
    number = _inches(exact, shown) if shown.system == "in" else _millimetres(exact)
    text = _signed(number, write=_mixed if shown.system == "in" else _decimal)
    return f"{text} {shown.system}" if unit else text


def write_as_read(mm: float, shown: Shown = METRIC) -> str:
    """Return a length in mm as the gauge gave it, where that is finer than `write_length` shows.

    To 0.01 mm, 1/64 in or 0.001 in, if it is a whole number of them: `778.6 mm`, `21/64 in`, `1.374 in`.

    >>> write_as_read(778.6)
    '778.6 mm'
    """
    exact = _exact(mm)
    if shown.system == "mm":
        return f"{_decimal(exact)} mm" if (exact * 100).denominator == 1 else write_length(mm, shown)
    inches = convert(exact, "mm", "in")
    if (inches * 64).denominator == 1:
        return f"{_mixed(inches)} in"
    return f"{float(inches):.3f} in" if (inches * 1000).denominator == 1 else write_length(mm, shown)


@lru_cache(maxsize=4096)  # a drawing's limits are written anew after every entry
def write_limits(limits: Limits, shown: Shown = METRIC) -> str:
    """Return limits in mm as text: `28 ±1 mm`, `28 +0 −1 mm`, `27 to 29 mm`, `at least 40 mm`, `28 mm`.

    Tolerances are used only where they add up, as rounded, to the rounded limits; otherwise the two limits
    are written. A tolerance too small for that is told with its size in decimals, never as nothing. Limits in
    inches are rounded inward where the nearest fraction lies beyond them: what is told is allowed.

    >>> write_limits(Limits(1.6, 1.3, 1.9, stated=True), Shown("in"))
    '0.063 ±0.012 in'
    """
    size = write_length(limits.nominal, shown)
    if not limits.stated or (math.isinf(limits.low) and math.isinf(limits.high)):
        return size
    if not limits.is_two_sided:
        word, limit = ("at least", limits.low) if math.isinf(limits.high) else ("at most", limits.high)
        inward = _inward(_exact(limit), shown.fraction, _MOST_BEYOND_MM, up=math.isinf(limits.high))
        bound = f"{word} {write_length(limit, shown) if shown.system == 'mm' else f'{_mixed(inward)} in'}"
        return (
            bound
            if limit == limits.nominal
            else f"{write_length(limits.nominal, shown, unit=False)}, {bound}"
        )
    rounded = _inches if shown.system == "in" else _millimetres
    write = _mixed if shown.system == "in" else _decimal
    nominal, low, high = (_exact(mm) for mm in (limits.nominal, limits.low, limits.high))
    less, more = rounded(nominal - low, shown), rounded(high - nominal, shown)
    if bool(less) != (nominal > low) or bool(more) != (high > nominal):
        return _finer_limits(nominal, low, high, shown)
    if shown.system == "in" and not _are_inside(low, high, shown):
        return _limits_inward(nominal, low, high, shown)
    middle = rounded(nominal, shown)
    if middle - less != rounded(low, shown) or middle + more != rounded(high, shown):
        less, more = middle - rounded(low, shown), rounded(high, shown) - middle
        if less == more > 0:  # as even as it was meant
            return _give_or_take(write(middle), write(less), write(more), shown)
        return f"{write(rounded(low, shown))} to {write(rounded(high, shown))} {shown.system}"
    return _give_or_take(write(middle), write(less), write(more), shown)


def _are_inside(low: Fraction, high: Fraction, shown: Shown) -> bool:
    """Whether the nearest fractions of an inch lie within limits in mm, but for a hair."""
    hair = _hair(low, high)
    inside = _inward(low, shown.fraction, hair, up=True), _inward(high, shown.fraction, hair, up=False)
    return inside == (_inches(low, shown), _inches(high, shown))


def _limits_inward(nominal: Fraction, low: Fraction, high: Fraction, shown: Shown) -> str:
    """The limits in the coarsest fractions of an inch that leave most of what is allowed.

    About a size that is a fraction itself, where none of them does, their tolerance in decimals.
    """
    least, hair = _ALLOWED_SHARE * convert(high - low, "mm", "in"), _hair(low, high)
    for fraction in (shown.fraction, 64):
        from_, to = _inward(low, fraction, hair, up=True), _inward(high, fraction, hair, up=False)
        if to - from_ >= least:
            return f"{_mixed(from_)} to {_mixed(to)} in"
    middle = convert(nominal, "mm", "in")
    if middle == nearest(middle, Fraction(1, shown.fraction)) and nominal - low == high - nominal:
        less = math.floor(1000 * convert(nominal - low, "mm", "in"))
        return f"{_mixed(middle)} ±{less / 1000:.3f} in"
    from_, to = _inward(low, 1000, Fraction(0), up=True), _inward(high, 1000, Fraction(0), up=False)
    return f"{float(from_):.3f} to {float(to):.3f} in"


def _hair(low: Fraction, high: Fraction) -> Fraction:
    """How far beyond limits in mm they may be told."""
    return min(_BEYOND_SHARE * (high - low), _MOST_BEYOND_MM)


def _inward(mm: Fraction, fraction: int, hair_mm: Fraction, *, up: bool) -> Fraction:
    """A limit in mm as a fraction of an inch that lies within it, but for a hair."""
    step, inches = Fraction(1, fraction), convert(mm, "mm", "in")
    told = nearest(inches, step)
    beyond = inches - told if up else told - inches
    return told if beyond <= convert(hair_mm, "mm", "in") else told + (step if up else -step)


def _finer_limits(nominal: Fraction, low: Fraction, high: Fraction, shown: Shown) -> str:
    """Limits in hundredths of a millimetre or thousandths of an inch."""
    places = 3 if shown.system == "in" else 2
    sizes = (convert(size, "mm", shown.system) for size in (nominal, nominal - low, high - nominal))
    middle, less, more = (f"{float(size):.{places}f}" for size in sizes)
    return _give_or_take(middle, less, more, shown)


def _give_or_take(middle: str, less: str, more: str, shown: Shown) -> str:
    tolerance = f"±{more}" if less == more else f"+{more} {MINUS}{less}"
    return f"{middle} {tolerance} {shown.system}"


def write_mass(g: float, shown: Shown = METRIC) -> str:
    """Return a mass in grams as text, such as `8.4 g`, `415 g`, `1.24 kg`, `14.6 oz` or `1 lb 4 oz`.

    To 0.1 g below 100 g, 1 g below 1 kg, 10 g above; in pounds to 0.1 oz below 1 lb and 0.5 oz above.
    """
    exact = _exact(g)
    return _signed(exact, write=_pounds if shown.system == "in" else _grams)


def write_temperature(c: float, shown: Shown = METRIC) -> str:
    """Return a temperature in °C as text, to the whole degree: `900 °C`, or `1652 °F` with inches."""
    if shown.system == "in":
        return f"{_signed(nearest(convert(_exact(c), 'degC', 'degF'), Fraction(1)))} °F"
    return f"{_signed(nearest(_exact(c), Fraction(1)))} °C"


def write_duration(s: float) -> str:
    """Return a duration in seconds as text: `90 s`, `1 min 45 s`, `12 min`, `3 h 10 min`.

    Seconds up to 90 s, minutes and seconds below 10 min, whole minutes above.
    """
    return _signed(_exact(s), write=_time)


def write_share(share: float) -> str:
    """Return a share of 1 as text, such as `3 %`: whole per cent from 10 % to 99 %, 0.1 % outside of that."""
    per_cent = _exact(share) * 100
    step = Fraction(1) if 10 <= abs(per_cent) <= 99 else Fraction(1, 10)
    return f"{_signed(nearest(per_cent, step))} %"


def write_angle(deg: float) -> str:
    """Return an angle in degrees as text, to half a degree, such as `45°` or `22.5°`."""
    return f"{_signed(nearest(_exact(deg), Fraction(1, 2)))}°"


def _exact(amount: float) -> Fraction:
    """Return the decimal that a float stands for, so that a size rounds the same however it was reckoned."""
    if not math.isfinite(amount):
        raise ValueError(f"{amount} cannot be written as a size")
    return Fraction(repr(round(float(amount), 9)))


def nearest(number: Fraction, step: Fraction) -> Fraction:
    """The nearest multiple of `step`, halves away from zero."""
    top, bottom = number.numerator * step.denominator, number.denominator * step.numerator
    whole = (2 * abs(top) + bottom) // (2 * bottom) * step.numerator
    return Fraction(-whole if top < 0 else whole, step.denominator)


def _millimetres(mm: Fraction, shown: Shown = METRIC) -> Fraction:
    if abs(mm) < 100:
        return nearest(mm, Fraction(1, 10))
    return nearest(mm, Fraction(1, 2) if abs(mm) < 1000 else Fraction(1))


def _inches(mm: Fraction, shown: Shown) -> Fraction:
    return nearest(convert(mm, "mm", "in"), Fraction(1, shown.fraction))


def _decimal(number: Fraction) -> str:
    """Write a number that is a multiple of 1/100, without idle zeros."""
    whole, hundredths = divmod(round(number * 100), 100)
    return f"{whole}.{hundredths:02d}".rstrip("0").removesuffix(".") if hundredths else str(whole)


def _mixed(number: Fraction) -> str:
    """Write a number as a whole and a fraction: `1 1/4`, `5/8`, `0`."""
    whole, part = divmod(number, 1)
    return " ".join(str(each) for each in (whole, part) if each) or "0"


def mass_step_g(g: float) -> Fraction:
    """What a mass of so many grams is written to, in grams: see `write_mass`."""
    if g < 100.0:
        return Fraction(1, 10)
    return Fraction(1) if g < 1000.0 else Fraction(10)


def _grams(g: Fraction) -> str:
    grams = nearest(g, Fraction(1, 10) if g < 100 else Fraction(1))
    return f"{_decimal(grams)} g" if grams < 1000 else f"{_decimal(nearest(g / 1000, Fraction(1, 100)))} kg"


def _pounds(g: Fraction) -> str:
    ounces = nearest(convert(g, "g", "oz"), Fraction(1, 10))
    if ounces < 16:
        return f"{_decimal(ounces)} oz"
    pounds, ounces = divmod(nearest(convert(g, "g", "oz"), Fraction(1, 2)), 16)
    return f"{pounds} lb {_decimal(ounces)} oz" if ounces else f"{pounds} lb"


def _time(s: Fraction) -> str:
    seconds = nearest(s, Fraction(1))
    if seconds < 600:
        return _joined(*divmod(seconds, 60), "min", "s") if seconds > _SECONDS_UP_TO_S else f"{seconds} s"
    return _joined(*divmod(nearest(s / 60, Fraction(1)), 60), "h", "min")


def _joined(large: int, small: Fraction, large_unit: str, small_unit: str) -> str:
    parts = ((large, large_unit), (small, small_unit))
    return " ".join(f"{number} {unit}" for number, unit in parts if number)


def _signed(number: Fraction, write: Callable[[Fraction], str] = _decimal) -> str:
    """Write a number with its sign, none where it reads as zero."""
    text = write(abs(number))
    if not any(digit in text for digit in "123456789"):
        return text
    return (MINUS if number < 0 else "") + text
