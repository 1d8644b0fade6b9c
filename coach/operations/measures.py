"""What can be measured in a step, kind by kind: how it is read, and how far a reading is trusted."""

from __future__ import annotations

import re
from collections.abc import Callable, Collection, Mapping
from functools import lru_cache
from math import inf
from types import MappingProxyType
from typing import Final, NamedTuple

from coach.operations.shop_test import Result
from coach.quantities import (
    Kind,
    Limits,
    read_angle_deg,
    read_duration_s,
    read_length_mm,
    read_limits,
    read_mass_g,
    read_temperature_c,
)

#: Where a zone ends along its bar, from the end that all marks are measured from.
MARK: Final = "mark"
#: Where a hole is punched, along the bar from that same end.
CENTRE: Final = "centre"
MASS: Final = "mass"  # of a piece with all that is welded on it
HARDNESS: Final = "hardness"  # of steel, by a tester
SLUG: Final = "slug"  # of the slug that a punch step drove out of a zone
#: What is measured on both sides of a thing and is to come out the same, whatever it comes to.
ALIKE: Final = MappingProxyType({"cheek": "other_cheek", "other_cheek": "cheek"})
#: How far out of line a zone is, and how far turned: looked at while it is forged, too.
BOW: Final = "bow"
WIND: Final = "wind"
#: How much longer one diagonal of a flat is than the other, where it has gone to a diamond.
DIAGONALS: Final = "diagonals_differ"
#: How wide a tine is of a bar that was split into two alike, and how wide the other one is.
TINE: Final = "tine"
OTHER_TINE: Final = "other_tine"


def looked_at(dimensions: Collection[str]) -> tuple[str, ...]:
    """What is looked at while a zone with such sizes is forged, whether its step asks for it or not."""
    return (BOW, WIND, DIAGONALS) if {"width", "thickness"} <= {*dimensions} else (BOW, WIND)


#: How much a gap may still be that is to be none (common practice, no source).
GAP_OF_NOTHING_MM: Final = 0.2

_NOTHING: Final = re.compile("0{1,6}(?:[.,]0{1,6})? ?(?:mm|in)?")


class Margin(NamedTuple):
    """How far a size written bare may be out either way: the larger of the two."""

    at_least: float  # in the kind's base unit
    share: float  # of the size


class Measured(NamedTuple):
    """How one kind of thing is measured."""

    read: Callable[[str, str], float]  # what was typed and the system of bare numbers, mm or in
    doubt: float | None = None  # standard uncertainty of one reading; None takes the gauge's
    margin: Margin = Margin(0.0, 0.0)


def read_length_or_none(text: str, unit: str = "mm") -> float:
    """A length in mm; `none`, `0`, `0.0` and `0 mm` are 0. Raises SizeError."""
    if text.strip().lower() == "none" or _NOTHING.fullmatch(text.strip()):
        return 0.0
    return read_length_mm(text, unit)


def _read_hardness(text: str, _: str) -> float:
    from coach.metals.hardness import read_hardness

    return read_hardness(text)


#: Uncertainties and margins: common practice, no source. A pyrometer in a furnace or a thermocouple in the
#: block is meant, not a colour; a Rockwell tester, not a set of files; a bevel or template for an angle;
#: light or a feeler for a gap, whatever else is measured by.
MEASURED: Final[Mapping[Kind, Measured]] = MappingProxyType(
    {
        Kind.LENGTH: Measured(read_length_mm, margin=Margin(0.5, 0.05)),
        Kind.GAP: Measured(read_length_or_none, 0.1),
        Kind.ANGLE: Measured(lambda text, _: read_angle_deg(text), 1.0, Margin(2, 0)),
        Kind.MASS: Measured(lambda text, system: read_mass_g(text, "oz" if system == "in" else "g")),
        Kind.TEMPERATURE: Measured(lambda text, _: read_temperature_c(text), 5.0, Margin(15, 0)),
        Kind.TIME: Measured(lambda text, _: read_duration_s(text), 0.0, Margin(0, 0.25)),
        Kind.HARDNESS: Measured(_read_hardness, 0.7, Margin(2, 0)),
        Kind.TEST: Measured(lambda text, _: Result.read(text).size, 0.0),
    }
)

#: What is wanted of every test.
PASSED: Final = Limits(Result.PASS.size, Result.PASS.size, inf, stated=True)

#: A bare size's low limit is never below this share of it, however small it is (our choice).
_LEAST_SHARE: Final = 0.5


def with_margin(limits: Limits, margin: Margin) -> Limits:
    """Limits for a size that was written bare; others as they were written."""
    if limits.stated:
        return limits
    size = limits.nominal
    reach = max(margin.at_least, margin.share * size)
    return Limits(size, max(size - reach, _LEAST_SHARE * size), size + reach, stated=False)


@lru_cache(maxsize=1024)  # a recipe is judged first and then read
def read_kind_limits(kind: Kind, text: str, system: str, margin: Margin | None = None) -> Limits:
    """Limits of one kind, as a recipe writes them; raises SizeError.

    Args:
        kind: what is measured.
        text: such as `28 ±1`, `800 to 830 °C`, `at least 10 min`.
        system: that of a bare number, mm or in.
        margin: how far a bare size may be out; None takes the kind's own.
    """
    measured = MEASURED[kind]
    limits = read_limits(text, lambda part: measured.read(part, system))
    if kind is Kind.GAP:
        return _gap_limits(limits)
    return with_margin(limits, margin or measured.margin)


def _gap_limits(limits: Limits) -> Limits:
    """A bare gap is the most allowed, and where there may be none it is never too small."""
    if limits.stated and limits.low > 0.0:
        return limits
    most = limits.high or GAP_OF_NOTHING_MM
    return Limits(most, -inf, most, stated=True)
