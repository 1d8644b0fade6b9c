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
from typing import Final

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

#: From here on a size is read by rule or tape, to half a millimetre: two hundredths of an inch (judgement).
_BY_TAPE_FROM_MM = 100

#: Below this a thirty-second of an inch is an eighth of a size, and it is taken by calliper (our choice).
_THIN_IN: Final = Fraction(1, 4)
#: What is less than this is no size that is worked to, but what two of them are apart (our choice).
_HAIR_IN: Final = Fraction(1, 32)

#: Two thin sizes of which one is a twentieth more are told apart where neither is further off (our choice).
_NEAR_SHARE: Final = Fraction(1, 50)


def write_length(mm: float, shown: Shown = METRIC, *, unit: bool = True) -> str:
    """Return a length in mm as text, such as `31.5 mm`, `142.5 mm` or `1 1/4 in`.

    Millimetres are given to 0.1 below 100 mm, to 0.5 below 1000 mm and to 1 above: a calliper, a rule, a
    tape. Inches are given to the nearest 1/16 or 1/32, reduced; below a quarter to 1/64 or 0.001 where those
    would be too far off. What rounds to zero has no sign.

    >>> write_length(4.6, Shown("in")), write_length(5.0, Shown("in"))
    ('0.181 in', '0.197 in')
    """
    exact = exact_of(mm)
    number = _inches(exact, shown) if shown.system == "in" else _millimetres(exact)
    text = _signed(number, write=_fraction_or_thousandths if shown.system == "in" else decimal)
    return f"{text} {shown.system}" if unit else text


def write_little(mm: float, shown: Shown = METRIC) -> str:
    """The same, one that no fraction of an inch shows in thousandths: a little is not told as nothing.

    >>> write_little(0.3, Shown("in")), write_little(0.02, Shown("in")), write_little(0.3)
    ('0.012 in', '0 in', '0.3 mm')
    """
    told = write_length(mm, shown)
    if told != "0 in" or write_length(mm) == "0 mm":
        return told
    return f"{float(convert(exact_of(mm), 'mm', 'in')):.3f} in".replace("-", MINUS)


def write_as_read(mm: float, shown: Shown = METRIC) -> str:
    """Return a length in mm as the gauge gave it, where that is finer than `write_length` shows.

    To 0.01 mm, 1/64 in or 0.001 in, if it is a whole number of them: `778.6 mm`, `21/64 in`, `1.374 in`.
    What was read in millimetres is none of these in inches: that is told in thousandths, and in hundredths
    from 100 mm on.

    >>> write_as_read(778.6), write_as_read(6.8, Shown("in")), write_as_read(140.0, Shown("in"))
    ('778.6 mm', '0.268 in', '5.51 in')
    """
    exact = exact_of(mm)
    if shown.system == "mm":
        return f"{decimal(exact)} mm" if (exact * 100).denominator == 1 else write_length(mm, shown)
    inches = convert(exact, "mm", "in")
    if (inches * 64).denominator == 1:
        return f"{mixed(inches)} in"
    places = 3 if (inches * 1000).denominator == 1 or abs(exact) < _BY_TAPE_FROM_MM else 2
    return f"{float(inches):.{places}f} in".replace("-", MINUS)


def write_mass(g: float, shown: Shown = METRIC) -> str:
    """Return a mass in grams as text, such as `8.4 g`, `415 g`, `1.24 kg`, `14.6 oz` or `1 lb 4 oz`.

    To 0.1 g below 100 g, 1 g below 1 kg, 10 g above; in pounds to 0.1 oz below 1 lb and 0.5 oz above.
    """
    exact = exact_of(g)
    return _signed(exact, write=_pounds if shown.system == "in" else _grams)


def write_temperature(c: float, shown: Shown = METRIC) -> str:
    """Return a temperature in °C as text, to the whole degree: `900 °C`, or `1652 °F` with inches."""
    if shown.system == "in":
        return f"{_signed(nearest(convert(exact_of(c), 'degC', 'degF'), Fraction(1)))} °F"
    return f"{_signed(nearest(exact_of(c), Fraction(1)))} °C"


def write_duration(s: float) -> str:
    """Return a duration in seconds as text: `90 s`, `1 min 45 s`, `12 min`, `3 h 10 min`.

    Seconds up to 90 s, minutes and seconds below 10 min, whole minutes above.
    """
    return _signed(exact_of(s), write=_time)


def write_share(share: float) -> str:
    """Return a share of 1 as text, such as `3 %`: whole per cent from 10 % to 99 %, 0.1 % outside of that."""
    per_cent = exact_of(share) * 100
    step = Fraction(1) if 10 <= abs(per_cent) <= 99 else Fraction(1, 10)
    return f"{_signed(nearest(per_cent, step))} %"


def write_angle(deg: float) -> str:
    """Return an angle in degrees as text, to half a degree, such as `45°` or `22.5°`."""
    return f"{_signed(nearest(exact_of(deg), Fraction(1, 2)))}°"


def exact_of(amount: float) -> Fraction:
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
    inches = convert(mm, "mm", "in")
    return nearest(inches, inch_grain(inches, shown))


def inch_grain(inches: Fraction, shown: Shown) -> Fraction:
    """What a size in inches is told to: as a rule shows it, or finer where it is thin."""
    coarse = Fraction(1, shown.fraction)
    if not _HAIR_IN <= abs(inches) < _THIN_IN:
        return coarse
    for grain in (coarse, Fraction(1, 64)):
        if abs(nearest(inches, grain) - inches) <= _NEAR_SHARE * abs(inches):
            return grain
    return Fraction(1, 1000)


def _fraction_or_thousandths(inches: Fraction) -> str:
    is_fraction = 64 % inches.denominator == 0
    return mixed(inches) if is_fraction else f"{float(inches):.3f}"


def decimal(number: Fraction) -> str:
    """Write a number that is a multiple of 1/100, without idle zeros."""
    whole, hundredths = divmod(round(number * 100), 100)
    return f"{whole}.{hundredths:02d}".rstrip("0").removesuffix(".") if hundredths else str(whole)


def mixed(number: Fraction) -> str:
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
    return f"{decimal(grams)} g" if grams < 1000 else f"{decimal(nearest(g / 1000, Fraction(1, 100)))} kg"


def _pounds(g: Fraction) -> str:
    ounces = nearest(convert(g, "g", "oz"), Fraction(1, 10))
    if ounces < 16:
        return f"{decimal(ounces)} oz"
    pounds, ounces = divmod(nearest(convert(g, "g", "oz"), Fraction(1, 2)), 16)
    return f"{pounds} lb {decimal(ounces)} oz" if ounces else f"{pounds} lb"


def _time(s: Fraction) -> str:
    seconds = nearest(s, Fraction(1))
    if seconds < 600:
        return _joined(*divmod(seconds, 60), "min", "s") if seconds > _SECONDS_UP_TO_S else f"{seconds} s"
    return _joined(*divmod(nearest(s / 60, Fraction(1)), 60), "h", "min")


def _joined(large: int, small: Fraction, large_unit: str, small_unit: str) -> str:
    parts = ((large, large_unit), (small, small_unit))
    return " ".join(f"{number} {unit}" for number, unit in parts if number)


def _signed(number: Fraction, write: Callable[[Fraction], str] = decimal) -> str:
    """Write a number with its sign, none where it reads as zero."""
    text = write(abs(number))
    if not any(digit in text for digit in "123456789"):
        return text
    return (MINUS if number < 0 else "") + text
