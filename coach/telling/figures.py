"""A figure as it is told: in the units asked for, and rounded by its doubt.

One rule rounds everything. The doubt told (`COVERAGE` standard uncertainties) keeps one or two digits by the
rounding rule of the Particle Data Group (Review of Particle Physics, introduction, section 5.3, from memory):
of its three leading digits, 100 to 354 keep two, 355 to 949 keep one, and above that it is the next power of
ten with two. The value is rounded to the same place, and never finer than its kind is read at the anvil,
unless the doubt is told beside it and would be told as nothing at that place. Fractions of an inch go by
halves: the coarsest that is at most a third of the doubt.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from fractions import Fraction
from functools import lru_cache
from math import floor, isclose, isfinite, log10
from types import MappingProxyType
from typing import Final, NamedTuple

from coach.operations.shop_test import Result
from coach.quantities.figure import COVERAGE, Figure, Kind, Span, Wanted
from coach.quantities.limits import Limits
from coach.telling.writing import (
    METRIC,
    MINUS,
    Shown,
    inch_grain,
    mass_step_g,
    nearest,
    write_angle,
    write_as_read,
    write_duration,
    write_length,
    write_little,
    write_mass,
    write_share,
    write_temperature,
)

INCHES: Final = Shown("in")
NOT_KNOWN: Final = "not known"
#: What is surer than this is told as if it were as sure as this, in any unit (our choice).
_LEAST_DOUBT: Final = 1e-30
#: From this share of the value on, a doubt is told as the range it leaves rather than as give or take.
_WIDE: Final = 0.25

_INCH, _POUND = Fraction(127, 5), Fraction("453.59237")
_UNIT_AT_END: Final = re.compile(r"^(?P<number>[^a-zµ°%]*?\d)(?P<unit> ?[a-zA-Zµ°%][^\d]*)$")


class _Decimals(NamedTuple):
    """A kind that is written as a plain decimal number."""

    places: int
    unit: str
    per_unit: Fraction = Fraction(1)  # in the base unit of its kind


def _alike(places: int, unit: str = "") -> tuple[_Decimals, _Decimals]:
    return _Decimals(places, unit), _Decimals(places, unit)


#: How kinds are written in millimetres and in inches; those that are not here have a writer of their own.
_DECIMALS: Final[Mapping[Kind, tuple[_Decimals | None, _Decimals | None]]] = MappingProxyType(
    {
        Kind.GAP: (None, _Decimals(3, " in", _INCH)),  # as feelers are marked: a thirty-second is a wide gap
        Kind.FINE: (_Decimals(2, " mm"), _Decimals(3, " in", _INCH)),
        Kind.AREA: (_Decimals(0, " mm²"), _Decimals(2, " in²", _INCH**2)),
        Kind.VOLUME: (_Decimals(2, " cm³", Fraction(1000)), _Decimals(3, " in³", _INCH**3)),
        Kind.LINEAR_MASS: (_Decimals(3, " kg/m", Fraction(1000)), None),
        Kind.DENSITY: (
            _Decimals(2, " g/cm³"),
            _Decimals(0, " lb/ft³", _POUND / (12 * _INCH / 10) ** 3),
        ),
        Kind.TEMPERATURE_CHANGE: (_Decimals(0, " °C"), _Decimals(0, " °F", Fraction(5, 9))),
        # A pound of force: NIST SP 811 (2008), appendix B.8; a ksi is a thousand on a square inch.
        Kind.STRESS: (_Decimals(0, " MPa"), _Decimals(0, " ksi", _POUND * Fraction("9.80665") / _INCH**2)),
        Kind.FACTOR: _alike(2),
        Kind.COUNT: _alike(0),
        Kind.HARDNESS: _alike(0, " HRC"),
        Kind.VICKERS: _alike(0, " HV"),
        Kind.BRINELL: _alike(0, " HBW"),
        Kind.ENERGY: _alike(0, " J"),
    }
)
#: How the others are measured in inches: how much a unit is in the base unit of the kind, and its zero there.
_LINES_IN_INCHES: Final = {
    Kind.LENGTH: (_INCH, Fraction(0)),
    Kind.MASS: (_POUND / 16, Fraction(0)),
    Kind.TEMPERATURE: (Fraction(5, 9), Fraction(-160, 9)),
}
#: What the others are written to: in the unit as shown.
_FINEST: Final[Mapping[Kind, Fraction]] = MappingProxyType(
    {
        Kind.LENGTH: Fraction(1, 10),
        Kind.GAP: Fraction(1, 10),
        Kind.MASS: Fraction(1, 10),
        Kind.TEMPERATURE: Fraction(1),
        Kind.ANGLE: Fraction(1, 2),
        Kind.SHARE: Fraction(1, 1000),
    }
)


def write_figure(figure: Figure, shown: Shown = METRIC, how: str = "") -> str:
    """Return a figure as text; what is not finite is `not known`.

    Args:
        figure: what is told.
        shown: the units to tell it in.
        how: "" the value, rounded by its doubt; `±` with its doubt; `~` as about so much, as roughly as
            its doubt allows, with the range where that is wide; `+` with its sign; `n` without its unit;
            `=` as a gauge or a person gave it; `mm` or `in` in those units, whatever is asked for;
            `hair` the value, where that is not nothing, or a hair; `chance` a share as chances are told.

    >>> write_figure(Figure(186.2, Kind.LENGTH, 2.4), how="±")
    '186 ±4 mm'
    >>> write_figure(Figure(125.5, Kind.LENGTH, 24.0), how="~")
    'about 130 mm, 90 to 160 mm'
    >>> write_figure(Figure(71.3, Kind.TIME, 10.0), how="~")
    'about 70 s'
    >>> write_figure(Figure(0.03, Kind.LENGTH, 0.1), how="hair")
    'a hair'
    """
    if not isfinite(figure.value):
        return NOT_KNOWN
    if how == "±":
        return _with_doubt(figure, shown)
    if how == "~":
        return _about(figure, shown)
    if how == "=":
        return _as_given(figure, shown)
    if how == "chance":
        from coach.telling.chance import chance_text  # which the ledger comes with

        return chance_text(figure.value)
    if how in ("mm", "in"):
        return write_figure(figure, METRIC if how == "mm" else INCHES)
    text = _plain(by_doubt(figure, shown), figure.kind, shown)
    if how == "hair":
        return text if re.search("[1-9]", text) else "a hair"
    if how == "+":
        return text if text[0] == MINUS or not re.search("[1-9]", text) else f"+{text}"
    return _split(text)[0] if how == "n" else text


def _as_given(figure: Figure, shown: Shown) -> str:
    """A figure not coarser than it was typed, whatever its doubt."""
    if figure.kind is Kind.ANGLE:
        return f"{round(figure.value, 1):g}°"
    if figure.kind is Kind.HARDNESS and isclose(figure.value, round(figure.value, 1)):  # and not converted
        return f"{round(figure.value, 1):g} HRC"
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
        from coach.telling.limits import write_limits

        return write_limits(limits, shown)
    if kind is Kind.TEST:
        return Result.of(limits.low).value
    low, high = isfinite(limits.low), isfinite(limits.high)
    if not (low or high):
        return _plain(limits.nominal, kind, shown)
    if kind is Kind.GAP:
        return _gap_wanted(limits, shown)
    if not high:
        return f"at least {_plain(limits.low, kind, shown)}"
    if not low:
        return f"at most {_plain(limits.high, kind, shown)}"
    half = (limits.high - limits.low) / 2.0
    if kind is Kind.ANGLE and half and abs(limits.nominal - limits.low - half) < 1e-9:
        return f"{_split(write_angle(limits.nominal))[0]} ±{write_angle(half)}"
    return write_span(Span(limits.low, limits.high, kind), shown)


def _gap_wanted(limits: Limits, shown: Shown) -> str:
    """A gap as feelers are marked, rounded inward as a length is."""
    from coach.telling.limits import write_limit

    sides = [low for low in (True, False) if isfinite(limits.low if low else limits.high)]
    told = [write_limit(limits, shown, low=low, fine=shown.system == "in") for low in sides]
    if len(told) == 1:
        return f"{'at least' if sides[0] else 'at most'} {told[0]}"
    return told[0] if told[0] == told[1] else f"{_split(told[0])[0]} to {told[1]}"


def by_doubt(figure: Figure, shown: Shown = METRIC) -> float:
    """A figure's value, in its base unit, rounded to the place that its doubt leaves of it."""
    return _rounded(figure.value, figure.kind, _step(figure, shown), shown)


def apart(one: Figure, other: Figure, shown: Shown = METRIC) -> Figure:
    """How far two figures are apart, as they are told, so that the three of them agree.

    >>> write_figure(apart(Figure(172.3, Kind.LENGTH, 1.0), Figure(175.0)))
    '2.5 mm'
    """
    off = Figure(abs(rounded(one, shown) - rounded(other, shown)), one.kind)
    is_by_rule = one.kind is not Kind.LENGTH or shown.system != "in" or _is_in(off, Fraction(1, 64))
    return off if is_by_rule else off._replace(kind=Kind.FINE)


def _is_in(inches: Figure, grain: Fraction) -> bool:
    """Whether a length is a whole number of so much of an inch, but for the dust of floats."""
    steps = inches.value / float(_INCH * grain)
    return isclose(steps, round(steps), abs_tol=1e-6)


def rounded(figure: Figure, shown: Shown = METRIC) -> float:
    """A figure's value, in its base unit, as it is written: by its doubt, or else by its kind."""
    return _rounded(figure.value, figure.kind, _step(figure, shown) or _grain(figure, shown), shown)


def _rounded(value: float, kind: Kind, step: Fraction, shown: Shown) -> float:
    if not step:
        return value
    if kind is Kind.MASS and shown.system == "mm":  # as it is written, or it would be rounded twice
        step = max(step, mass_step_g(abs(value)))
    per_unit, zero = _line(kind, shown)
    return float(nearest((Fraction(value) - zero) / per_unit, step) * per_unit + zero)


def place_of(doubt: float) -> Fraction:
    """The place that a doubt is told to, by the rule of the Particle Data Group.

    >>> [str(place_of(doubt)) for doubt in (0.827, 0.119, 0.367, 0.96)]
    ['1/10', '1/100', '1/10', '1/10']
    """
    doubt = max(doubt, _LEAST_DOUBT)  # the power of ten below a smaller one is 0 as a float
    power = floor(log10(doubt))
    # From 9.5 on two digits are kept of the next power of ten, and that is the place of one digit of this.
    return Fraction(10) ** (power - 1 if doubt / 10.0**power < 3.55 else power)


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
        return max(place_of(doubt), _grain(figure, shown))
    most = doubt if _is_wide(figure) else 2.0 * doubt
    place = Fraction(10) ** floor(log10(most))
    return max(place, Fraction(1)) if figure.kind is Kind.COUNT else place


def _grain(figure: Figure, shown: Shown) -> Fraction:
    """What a figure is written to, whatever its doubt, in the unit shown."""
    kind = figure.kind
    if kind is Kind.LENGTH and shown.system == "in":
        return inch_grain(Fraction(figure.value) / _INCH, shown)
    written = _decimals(kind, shown)
    if written is not None:
        return Fraction(1, 10**written.places)
    if kind in (Kind.LENGTH, Kind.GAP) and abs(figure.value) >= 100.0:  # a rule, a tape: see `write_length`
        return Fraction(1, 2) if abs(figure.value) < 1000.0 else Fraction(1)
    return _FINEST.get(kind, Fraction(0))


def _is_wide(figure: Figure) -> bool:
    return COVERAGE * (figure.doubt or 0.0) >= _WIDE * abs(figure.value)


def _decimals(kind: Kind, shown: Shown) -> _Decimals | None:
    return _DECIMALS.get(kind, (None, None))[shown.system == "in"]


def _line(kind: Kind, shown: Shown) -> tuple[Fraction, Fraction]:
    """How much one unit as shown is in the base unit, and the zero of that scale."""
    written = _decimals(kind, shown)
    if written is not None:
        return written.per_unit, Fraction(0)
    base = Fraction(1), Fraction(0)
    return _LINES_IN_INCHES.get(kind, base) if shown.system == "in" else base


def _with_doubt(figure: Figure, shown: Shown) -> str:
    doubt = COVERAGE * (figure.doubt or 0.0)
    text = _plain(by_doubt(figure, shown), figure.kind, shown)
    if not doubt or not isfinite(doubt):
        return text
    per_unit, _ = _line(figure.kind, shown)
    give = _give(figure, doubt, shown)
    too_fine = Fraction(doubt) / per_unit < _grain(figure, shown) or figure.kind is Kind.FACTOR
    if too_fine or not re.search("[1-9]", give):  # never give or take nothing
        return _finely(figure, doubt, shown)
    number, unit = _split(text)
    return f"{number} ±{give}" if unit == _split(give)[1] else f"{text} ±{give}"


def _give(figure: Figure, doubt: float, shown: Shown) -> str:
    kind = Kind.TEMPERATURE_CHANGE if figure.kind is Kind.TEMPERATURE else figure.kind
    if kind is Kind.TIME and figure.value >= 600.0:  # told in whole minutes, and its doubt with it
        told = max(60.0, 60.0 * round(doubt / 60.0))
        return f"{told / 60.0:.0f} min" if told < 3600.0 else _plain(told, kind, shown)
    return _plain(_rounded(doubt, kind, _step(figure, shown), shown), kind, shown)


def _finely(figure: Figure, doubt: float, shown: Shown) -> str:
    """A value and its doubt in decimals, where the doubt is finer than the kind is usually told."""
    per_unit, zero = _line(figure.kind, shown)
    finer = doubt / float(per_unit)
    place = place_of(finer)
    finest = _FINEST.get(figure.kind, Fraction(0)) if shown.system == "mm" else Fraction(0)
    if finest and 2.0 * finer >= finest:  # no gauge of the anvil shows more
        place = max(place, finest)
    places = max(0, -floor(log10(place)))
    number = f"{float((Fraction(figure.value) - zero) / per_unit):.{places}f}"
    if figure.kind in (Kind.LENGTH, Kind.GAP) and places == 1:  # as a length is written
        number = number.removesuffix(".0")
    unit = _split(_plain(1.0, figure.kind, shown))[1]
    return f"{_unsigned_zero(number)} ±{finer:.{places}f}{unit}".replace("-", MINUS)


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


def _unsigned_zero(number: str) -> str:
    """A number as text, without a sign where it rounds to zero."""
    return number if re.search("[1-9]", number) else number.lstrip("-")


@lru_cache(maxsize=4096)  # a plan tells most of its figures twice, and the bench anew after every entry
def _plain(value: float, kind: Kind, shown: Shown) -> str:
    written = _decimals(kind, shown)
    if written is None:
        return _WRITE[kind](value, shown)
    number = _unsigned_zero(f"{value / float(written.per_unit):.{written.places}f}")
    return f"{number}{written.unit}".replace("-", MINUS)


_WRITE: Final[Mapping[Kind, Callable[[float, Shown], str]]] = MappingProxyType(
    {
        Kind.LENGTH: write_little,
        Kind.GAP: write_length,
        Kind.MASS: write_mass,
        Kind.LINEAR_MASS: lambda value, shown: f"{write_mass(value * 0.3048, shown)} per foot",
        Kind.TEMPERATURE: write_temperature,
        Kind.TIME: lambda value, _: write_duration(value),
        Kind.ANGLE: lambda value, _: write_angle(value),
        Kind.SHARE: lambda value, _: write_share(value),
        Kind.CONTENT: lambda value, _: f"{round(value, 3):g} %",
        Kind.TEST: lambda outcome, _: Result.of(outcome).value,
    }
)
