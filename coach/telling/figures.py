"""A figure as it is told: in the units asked for, and rounded by its doubt.

One rule rounds everything. The doubt told (`COVERAGE` standard uncertainties) keeps one or two digits by the
rounding rule of the Particle Data Group (Review of Particle Physics, introduction, section 5.3, from memory):
of its three leading digits, 100 to 354 keep two, 355 to 949 keep one, and above that it is the next power of
ten with two. The value is rounded to the same place, and never finer than its kind is read at the anvil,
unless the doubt is told beside it and is finer still. Fractions of an inch go by halves: the coarsest that is
at most a third of the doubt.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from fractions import Fraction
from math import floor, isfinite, log10
from types import MappingProxyType
from typing import Final

from coach.operations.shop_test import Result
from coach.quantities.figure import COVERAGE, Figure, Kind, Span, Wanted
from coach.quantities.units import convert
from coach.telling.writing import (
    MINUS,
    Shown,
    write_angle,
    write_as_read,
    write_duration,
    write_length,
    write_limits,
    write_mass,
    write_share,
    write_temperature,
)

METRIC: Final = Shown()
INCHES: Final = Shown("in")
NOT_KNOWN: Final = "not known"
#: From this share of the value on, a doubt is told as the range it leaves rather than as give or take.
_WIDE: Final = 0.25

_LENGTHS: Final = (Kind.LENGTH, Kind.GAP, Kind.FINE)
_MM_IN_INCH, _MM3_IN_CM3, _MM3_IN_CUBIC_INCH = 25.4, 1000.0, 16387.064
_UNIT_AT_END: Final = re.compile(r"^(?P<number>[^a-zµ°%]*?\d)(?P<unit> ?[a-zA-Zµ°%][^\d]*)$")


def write_figure(figure: Figure, shown: Shown = METRIC, how: str = "") -> str:
    """Return a figure as text; what is not finite is `not known`.

    Args:
        figure: what is told.
        shown: the units to tell it in.
        how: "" the value, rounded by its doubt; `±` with its doubt; `~` as about so much, as roughly as
            its doubt allows, with the range where that is wide; `+` with its sign; `n` without its unit;
            `=` as a gauge or a person gave it; `mm` or `in` in those units, whatever is asked for.

    >>> write_figure(Figure(186.2, Kind.LENGTH, 2.4), how="±")
    '186 ±4 mm'
    >>> write_figure(Figure(125.5, Kind.LENGTH, 24.0), how="~")
    'about 130 mm, 90 to 160 mm'
    >>> write_figure(Figure(71.3, Kind.TIME, 10.0), how="~")
    'about 70 s'
    """
    if not figure.is_finite:
        return NOT_KNOWN
    if how == "±":
        return _with_doubt(figure, shown)
    if how == "~":
        return _about(figure, shown)
    if how == "=":
        return _as_given(figure, shown)
    if how in ("mm", "in"):
        return write_figure(figure, METRIC if how == "mm" else INCHES)
    text = _plain(by_doubt(figure, shown), figure.kind, shown)
    if how == "+":
        return text if text[0] == MINUS or not re.search("[1-9]", text) else f"+{text}"
    return _split(text)[0] if how == "n" else text


def _as_given(figure: Figure, shown: Shown) -> str:
    """A figure not coarser than it was typed, whatever its doubt."""
    if figure.kind is Kind.ANGLE:
        return f"{round(figure.value, 1):g}°"
    if figure.kind is Kind.LENGTH or (figure.kind is Kind.GAP and shown.system == "mm"):
        return write_as_read(figure.value, shown)
    return _plain(figure.value, figure.kind, shown)


def write_span(span: Span, shown: Shown = METRIC) -> str:
    """Return two figures of one kind as text: `80 to 160 mm`.

    >>> write_span(Span(800.0, 830.0, Kind.TEMPERATURE))
    '800 to 830 °C'
    """
    low, high = (_plain(one, span.kind, shown) for one in (span.low, span.high))
    if low == high:
        return high
    number, unit = _split(low)
    return f"{number if unit and unit == _split(high)[1] else low} to {high}"


def write_wanted(wanted: Wanted, shown: Shown = METRIC) -> str:
    """Return limits as they are shown: `28 ±1 mm`, `800 to 830 °C`, `at least 10 min`.

    >>> from coach.quantities import Limits
    >>> write_wanted(Wanted(Limits(800.0, 800.0, float("inf"), True), Kind.TEMPERATURE))
    'at least 800 °C'
    """
    limits, kind = wanted
    if kind is Kind.LENGTH:
        return write_limits(limits, shown)
    if kind is Kind.TEST:
        return Result.of(limits.low).value
    low, high = isfinite(limits.low), isfinite(limits.high)
    if not (low or high):
        return _plain(limits.nominal, kind, shown)
    if not high:
        return f"at least {_plain(limits.low, kind, shown)}"
    if not low:
        return f"at most {_plain(limits.high, kind, shown)}"
    half = (limits.high - limits.low) / 2.0
    if kind is Kind.ANGLE and half and abs(limits.nominal - limits.low - half) < 1e-9:
        return f"{_split(write_angle(limits.nominal))[0]} ±{write_angle(half)}"
    return write_span(Span(limits.low, limits.high, kind), shown)


def by_doubt(figure: Figure, shown: Shown = METRIC) -> float:
    """A figure's value, in its base unit, rounded to the place that its doubt leaves of it."""
    return _rounded(figure.value, figure.kind, _step(figure, shown), shown)


def _rounded(value: float, kind: Kind, step: Fraction, shown: Shown) -> float:
    if not step:
        return value
    per_unit, zero = _line(kind, shown)
    return float((_nearest((Fraction(value) - zero) / per_unit, step)) * per_unit + zero)


def place_of(doubt: float) -> Fraction:
    """The place that a doubt is told to, by the rule of the Particle Data Group.

    >>> [str(place_of(doubt)) for doubt in (0.827, 0.119, 0.367, 0.96)]
    ['1/10', '1/100', '1/10', '1/10']
    """
    power = floor(log10(doubt))
    leading = doubt / 10.0**power
    two_digits = leading < 3.55 or leading >= 9.5
    return Fraction(10) ** (power - 1 if two_digits and leading < 9.5 else power)


def _step(figure: Figure, shown: Shown, *, roughly: bool = False) -> Fraction:
    """What a figure is rounded to a multiple of, in the unit shown; 0 where it has no doubt.

    Roughly is the greatest power of ten that is at most twice the doubt told, or at most the doubt told where
    a range stands beside the value.
    """
    if not figure.doubt or not isfinite(figure.doubt):
        return Fraction(0)
    per_unit, _ = _line(figure.kind, shown)
    doubt = COVERAGE * figure.doubt / float(per_unit)
    if figure.kind is Kind.LENGTH and shown.system == "in":
        step = Fraction(1, shown.fraction)
        while 6.0 * step <= doubt:
            step *= 2
        return step
    if figure.kind is Kind.MASS and shown.system == "in" and doubt < 8.0:
        return Fraction(1, 10) if doubt < 3.55 else Fraction(1)
    if not roughly:  # never finer than it is written, or it would be rounded twice
        return max(place_of(doubt), _grain(figure))
    most = doubt if _is_wide(figure) else 2.0 * doubt
    place = Fraction(10) ** floor(log10(most))
    return max(place, Fraction(1)) if figure.kind is Kind.COUNT else place


def _grain(figure: Figure) -> Fraction:
    """What a figure is written to, whatever its doubt."""
    if figure.kind in (Kind.LENGTH, Kind.GAP) and abs(figure.value) >= 100.0:
        return Fraction(1, 2) if abs(figure.value) < 1000.0 else Fraction(1)
    return Fraction(str(_FINEST.get(figure.kind, 0.0)))


def _is_wide(figure: Figure) -> bool:
    return COVERAGE * (figure.doubt or 0.0) >= _WIDE * abs(figure.value)


def _line(kind: Kind, shown: Shown) -> tuple[Fraction, Fraction]:
    """How much one unit as shown is in the base unit, and the zero of that scale."""
    if shown.system == "mm":
        return Fraction(1), Fraction(0)
    if kind in _LENGTHS:
        return Fraction(127, 5), Fraction(0)
    if kind is Kind.MASS:
        return convert(Fraction(1), "oz", "g"), Fraction(0)
    if kind is Kind.TEMPERATURE:
        return Fraction(5, 9), Fraction(-160, 9)
    if kind is Kind.TEMPERATURE_CHANGE:
        return Fraction(5, 9), Fraction(0)
    return Fraction(1), Fraction(0)


def _nearest(number: Fraction, step: Fraction) -> Fraction:
    whole = floor(abs(number) / step + Fraction(1, 2)) * step
    return -whole if number < 0 else whole


def _with_doubt(figure: Figure, shown: Shown) -> str:
    doubt = COVERAGE * (figure.doubt or 0.0)
    text = _plain(by_doubt(figure, shown), figure.kind, shown)
    if not doubt or not isfinite(doubt):
        return text
    if doubt < _finest(figure, shown) or figure.kind is Kind.FACTOR:
        return _finely(figure, doubt, shown)
    give = _give(figure, doubt, shown)
    if not re.search("[1-9]", give):  # never give or take nothing
        return _finely(figure, doubt, shown)
    number, unit = _split(text)
    return f"{number} ±{give}" if unit == _split(give)[1] else f"{text} ±{give}"


def _give(figure: Figure, doubt: float, shown: Shown) -> str:
    per_unit, _ = _line(figure.kind, shown)
    step = _step(figure, shown)
    told = float(_nearest(Fraction(doubt) / per_unit, step) * per_unit) if step else doubt
    kind = Kind.TEMPERATURE_CHANGE if figure.kind is Kind.TEMPERATURE else figure.kind
    if kind is Kind.TIME and figure.value >= 600.0:  # told in whole minutes, and its doubt with it
        told = max(60.0, 60.0 * round(doubt / 60.0))
        return f"{told / 60.0:.0f} min" if told < 3600.0 else _plain(told, kind, shown)
    return _plain(told, kind, shown)


def _finest(figure: Figure, shown: Shown) -> float:
    """The least that a figure of its kind is usually told to, in its base unit."""
    if figure.kind is Kind.LENGTH and shown.system == "in":
        return _MM_IN_INCH / shown.fraction
    if figure.kind is Kind.LENGTH and abs(figure.value) >= 100.0:  # a rule, a tape: see `write_length`
        return 0.5 if abs(figure.value) < 1000.0 else 1.0
    return _FINEST.get(figure.kind, 0.0)


def _finely(figure: Figure, doubt: float, shown: Shown) -> str:
    """A value and its doubt in decimals, where the doubt is finer than the kind is usually told."""
    per_unit, zero = _line(figure.kind, shown)
    finer = doubt / float(per_unit)
    step = place_of(finer)
    places = max(0, -floor(log10(step)))
    number = float((Fraction(figure.value) - zero) / per_unit)
    unit = _unit(figure.kind, shown)
    return f"{number:.{places}f} ±{finer:.{places}f}{unit}".replace("-", MINUS)


def _unit(kind: Kind, shown: Shown) -> str:
    if kind in _LENGTHS:
        return f" {shown.system}"
    if kind is Kind.MASS:
        return " g" if shown.system == "mm" else " oz"
    return _split(_plain(1.0, kind, shown))[1]


def _about(figure: Figure, shown: Shown) -> str:
    value, kind, _ = figure
    step = _step(figure, shown, roughly=True)
    told = f"about {_plain(_rounded(value, kind, step, shown), kind, shown)}"
    doubt = COVERAGE * (figure.doubt or 0.0)
    if not isfinite(doubt) or not _is_wide(figure):
        return told
    least = max(value - doubt, 0.0) if value >= 0.0 else value - doubt
    low, high = (_rounded(end, kind, step, shown) for end in (least, value + doubt))
    return f"{told}, {write_span(Span(low, high, kind), shown)}"


def _split(text: str) -> tuple[str, str]:
    """A figure's number and its unit; the whole and no unit where it has more than one of them."""
    found = _UNIT_AT_END.match(text)
    return (found["number"], found["unit"]) if found else (text, "")


def _plain(value: float, kind: Kind, shown: Shown) -> str:
    return _WRITE[kind](value, shown)


def _gap(value_mm: float, shown: Shown) -> str:
    if shown.system == "in":  # as feelers are marked: a thirty-second is a wide gap
        return f"{value_mm / _MM_IN_INCH:.3f} in"
    return write_length(value_mm, shown)


def _fine(value_mm: float, shown: Shown) -> str:
    if shown.system == "in":
        return f"{value_mm / _MM_IN_INCH:.3f} in".replace("-", MINUS)
    return f"{value_mm:.2f} mm".replace("-", MINUS)


def _volume(value_mm3: float, shown: Shown) -> str:
    if shown.system == "in":
        return f"{value_mm3 / _MM3_IN_CUBIC_INCH:.3f} in³"
    return f"{value_mm3 / _MM3_IN_CM3:.2f} cm³"


def _area(value_mm2: float, shown: Shown) -> str:
    if shown.system == "in":
        return f"{value_mm2 / _MM_IN_INCH**2:.2f} in²"
    return f"{value_mm2:.0f} mm²"


def _linear_mass(g_per_m: float, shown: Shown) -> str:
    if shown.system == "in":
        return f"{write_mass(g_per_m * 0.3048, shown)} per foot"
    return f"{g_per_m / 1000.0:.3f} kg/m"


def _density(g_per_cm3: float, shown: Shown) -> str:
    return f"{g_per_cm3 * 62.428:.0f} lb/ft³" if shown.system == "in" else f"{g_per_cm3:.2f} g/cm³"


def _stress(mpa: float, shown: Shown) -> str:
    return f"{mpa * 0.145038:.0f} ksi" if shown.system == "in" else f"{mpa:.0f} MPa"


def _content(per_cent: float, _: Shown) -> str:
    return f"{round(per_cent, 3):g} %"


def _change(value_c: float, shown: Shown) -> str:
    return f"{value_c * 1.8:.0f} °F" if shown.system == "in" else f"{value_c:.0f} °C"


def _fixed(places: int, unit: str = "") -> Callable[[float, Shown], str]:
    return lambda value, _: f"{value:.{places}f}{unit}".replace("-", MINUS)


_FINEST: Final[Mapping[Kind, float]] = MappingProxyType(
    {
        Kind.LENGTH: 0.1,
        Kind.GAP: 0.1,
        Kind.FINE: 0.01,
        Kind.MASS: 0.1,
        Kind.DENSITY: 0.01,
        Kind.TEMPERATURE: 1.0,
        Kind.TEMPERATURE_CHANGE: 1.0,
        Kind.ANGLE: 0.5,
        Kind.SHARE: 0.001,
        Kind.FACTOR: 0.01,
        Kind.COUNT: 1.0,
        Kind.HARDNESS: 1.0,
        Kind.VICKERS: 1.0,
        Kind.BRINELL: 1.0,
        Kind.STRESS: 1.0,
        Kind.ENERGY: 1.0,
    }
)

_WRITE: Final[Mapping[Kind, Callable[[float, Shown], str]]] = MappingProxyType(
    {
        Kind.LENGTH: write_length,
        Kind.GAP: _gap,
        Kind.FINE: _fine,
        Kind.AREA: _area,
        Kind.VOLUME: _volume,
        Kind.MASS: write_mass,
        Kind.LINEAR_MASS: _linear_mass,
        Kind.DENSITY: _density,
        Kind.TEMPERATURE: write_temperature,
        Kind.TEMPERATURE_CHANGE: _change,
        Kind.TIME: lambda value, _: write_duration(value),
        Kind.ANGLE: lambda value, _: write_angle(value),
        Kind.SHARE: lambda value, _: write_share(value),
        Kind.CONTENT: _content,
        Kind.FACTOR: _fixed(2),
        Kind.COUNT: _fixed(0),
        Kind.HARDNESS: _fixed(0, " HRC"),
        Kind.VICKERS: _fixed(0, " HV"),
        Kind.BRINELL: _fixed(0, " HBW"),
        Kind.STRESS: _stress,
        Kind.ENERGY: _fixed(0, " J"),
        Kind.TEST: lambda outcome, _: Result.of(outcome).value,
    }
)
