"""What can be measured in a step, kind by kind: how it is read, written and trusted."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from math import inf, isinf
from types import MappingProxyType
from typing import Final, NamedTuple

from coach.operations.shop_test import Result
from coach.quantities import (
    Figure,
    Limits,
    Shown,
    read_angle_deg,
    read_duration_s,
    read_length_mm,
    read_limits,
    read_mass_g,
    read_temperature_c,
    write_angle,
    write_duration,
    write_length,
    write_limits,
    write_mass,
    write_temperature,
)
from coach.quantities.figure import Kind as FigureKind
from coach.quantities.figure import Wanted

#: How much a gap may still be that is to be none (common practice, no source).
GAP_OF_NOTHING_MM: Final = 0.2

_MM_IN_INCH = 25.4
_NOTHING: Final = re.compile("0{1,6}(?:[.,]0{1,6})? ?(?:mm|in)?")


class Margin(NamedTuple):
    """How far a size written bare may be out either way: the larger of the two."""

    at_least: float  # in the kind's own unit
    share: float  # of the size


class Kind(NamedTuple):
    """One kind of thing that is measured."""

    name: str
    read: Callable[[str, str], float]  # what was typed and the system of bare numbers, mm or in
    write: Callable[[float, Shown], str]
    figure: FigureKind  # what its sizes are told as
    doubt: float | None = None  # standard uncertainty of one reading; None takes the gauge's
    margin: Margin = Margin(0.0, 0.0)


def read_length_or_none(text: str, unit: str = "mm") -> float:
    """A length in mm; `none`, `0`, `0.0` and `0 mm` are 0. Raises SizeError."""
    if text.strip().lower() == "none" or _NOTHING.fullmatch(text.strip()):
        return 0.0
    return read_length_mm(text, unit)


def _write_gap(size_mm: float, shown: Shown) -> str:
    if shown.system == "in":
        return f"{size_mm / _MM_IN_INCH:.3f} in"  # as feelers are marked: a thirty-second is a wide gap
    return write_length(size_mm, shown)


def _read_hardness(text: str, _: str) -> float:
    from coach.metals.hardness import read_hardness

    return read_hardness(text)


_ANGLE = Kind(
    "angle",
    lambda text, _: read_angle_deg(text),
    lambda deg, _: write_angle(deg),
    FigureKind.ANGLE,
    1.0,
    Margin(2, 0),
)
_TEMPERATURE = Kind(
    "temperature",
    lambda text, _: read_temperature_c(text),
    write_temperature,
    FigureKind.TEMPERATURE,
    5.0,
    Margin(15, 0),
)

#: Uncertainties and margins: common practice, no source. A pyrometer in a furnace or a thermocouple in the
#: block is meant, not a colour; a Rockwell tester, not a set of files; a bevel or template for an angle;
#: light or a feeler for a gap, whatever else is measured by.
KINDS: Final[Mapping[str, Kind]] = MappingProxyType(
    {
        kind.name: kind
        for kind in (
            Kind("length", read_length_mm, write_length, FigureKind.LENGTH, margin=Margin(0.5, 0.05)),
            Kind("gap", read_length_or_none, _write_gap, FigureKind.GAP, 0.1),
            _ANGLE,
            Kind(
                "mass",
                lambda text, s: read_mass_g(text, "oz" if s == "in" else "g"),
                write_mass,
                FigureKind.MASS,
            ),
            _TEMPERATURE,
            Kind(
                "minutes",
                lambda text, _: read_duration_s(text) / 60.0,
                lambda minutes, _: write_duration(60.0 * minutes),
                FigureKind.TIME,
                0.0,
                Margin(0, 0.25),
            ),
            Kind(
                "hardness",
                _read_hardness,
                lambda hrc, _: f"{hrc:.0f} HRC",
                FigureKind.HARDNESS,
                0.7,
                Margin(2, 0),
            ),
            Kind(
                "test",
                lambda text, _: Result.read(text).size,
                lambda outcome, _: Result.of(outcome).value,
                FigureKind.TEST,
                0.0,
            ),
        )
    }
)

#: What is wanted of every test.
PASSED: Final = Limits(Result.PASS.size, Result.PASS.size, inf, stated=True)

#: A soak is logged in minutes, a figure of time is in seconds.
_PER_UNIT: Final[Mapping[FigureKind, float]] = MappingProxyType({FigureKind.TIME: 60.0})

#: A bare size's low limit is never below this share of it, however small it is.
_LEAST_SHARE: Final = 0.5


def with_margin(limits: Limits, margin: Margin) -> Limits:
    """Limits for a size that was written bare; others as they were written."""
    if limits.stated:
        return limits
    size = limits.nominal
    reach = max(margin.at_least, margin.share * size)
    return Limits(size, max(size - reach, _LEAST_SHARE * size), size + reach, stated=False)


def read_kind_limits(kind: Kind, text: str, system: str, margin: Margin | None = None) -> Limits:
    """Limits of one kind, as a recipe writes them; raises SizeError.

    Args:
        kind: what is measured.
        text: such as `28 ±1`, `800 to 830 °C`, `at least 10 min`.
        system: that of a bare number, mm or in.
        margin: how far a bare size may be out; None takes the kind's own.
    """
    limits = read_limits(text, lambda part: kind.read(part, system))
    if kind.name == "gap":
        return _gap_limits(limits)
    return with_margin(limits, margin or kind.margin)


def _gap_limits(limits: Limits) -> Limits:
    """A bare gap is the most allowed, and where there may be none it is never too small."""
    if limits.stated and limits.low > 0.0:
        return limits
    most = limits.high or GAP_OF_NOTHING_MM
    return Limits(most, -inf, most, stated=True)


def figure_of(size: float, kind: str, doubt: float | None = None) -> Figure:
    """A measured size in the kind's own unit as a figure."""
    told = KINDS[kind].figure
    per_unit = _PER_UNIT.get(told, 1.0)
    return Figure(size * per_unit, told, None if doubt is None else doubt * per_unit)


def wanted_of(limits: Limits, kind: str) -> Wanted:
    """Limits in the kind's own unit as what is wanted."""
    told = KINDS[kind].figure
    per_unit = _PER_UNIT.get(told, 1.0)
    nominal, low, high = (per_unit * end for end in (limits.nominal, limits.low, limits.high))
    return Wanted(Limits(nominal, low, high, limits.stated), told)


def limits_text(limits: Limits, kind: str, shown: Shown) -> str:
    """Limits as they are shown: `28 ±1 mm`, `800 to 830 °C`, `at least 10 min`, `pass`."""
    if kind == "test":
        return Result.PASS.value
    if kind == "length":
        return write_limits(limits, shown)
    write = KINDS[kind].write
    if isinf(limits.low) and isinf(limits.high):
        return write(limits.nominal, shown)
    if isinf(limits.high):
        return f"at least {write(limits.low, shown)}"
    if isinf(limits.low):
        return f"at most {write(limits.high, shown)}"
    if kind == "gap":
        return write_limits(limits, shown)
    if limits.high <= limits.low:
        return write(limits.nominal, shown)
    if kind == "angle":
        return _angle_text(limits)
    low, high = write(limits.low, shown), write(limits.high, shown)
    number, _, unit = low.partition(" ")
    return f"{number if high.endswith(f' {unit}') else low} to {high}"


def _angle_text(limits: Limits) -> str:
    half = (limits.high - limits.low) / 2.0
    if abs(limits.nominal - limits.low - half) < 1e-9:
        return f"{write_angle(limits.nominal).rstrip('°')} ±{write_angle(half)}"
    return f"{write_angle(limits.low).rstrip('°')} to {write_angle(limits.high)}"
