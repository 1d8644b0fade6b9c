"""One limit of a size as it is told in a sentence: as the table tells it, where both stand."""

from __future__ import annotations

from fractions import Fraction
from math import isfinite
from typing import Final

from coach.quantities.figure import Figure, Kind, Limit, Wanted
from coach.quantities.limits import Limits
from coach.quantities.units import convert
from coach.telling.figures import apart, rounded, write_figure, write_wanted
from coach.telling.limits import ToldLimits, told_limits, write_limit, write_limits
from coach.telling.writing import Shown, exact_of

#: Kinds that are told as lengths of a gauge.
_GAUGED: Final = (Kind.LENGTH, Kind.GAP)


def write_bound(limit: Limit, shown: Shown, *, fine: bool = False) -> str:
    """Return a limit as the table tells it; a fine one as a calliper shows it; not known of an open one."""
    if limit.wanted.kind not in _GAUGED or not isfinite(limit.figure.value):
        return write_figure(limit.figure, shown)
    fine = fine or (limit.wanted.kind is Kind.GAP and shown.system == "in")
    return write_limit(limit.wanted.limits, shown, low=limit.low, fine=fine)


def bound_as_told(limit: Limit, shown: Shown, *, fine: bool = False) -> Figure:
    """A limit by what is told of it, of a kind that is told as finely."""
    if limit.wanted.kind is not Kind.LENGTH:
        return limit.figure
    told = told_limits(limit.wanted.limits, shown, fine=fine)
    end = told.end(low=limit.low)
    assert end is not None
    return as_told(end, told, shown)


def off_bound(size: Figure, limit: Limit, shown: Shown, *, fine: bool = False) -> Figure:
    """How far a size is from a limit, by what is told of the two."""
    bound = bound_as_told(limit, shown, fine=fine)
    if size.kind is not Kind.LENGTH:
        return apart(size, bound, shown)
    size = size._replace(kind=bound.kind)
    return Figure(abs(rounded(size, shown) - bound.value), bound.kind)


def write_wanted_of(wanted: Wanted, size: Figure | None, shown: Shown) -> str:
    """Return limits as they are told beside a size: one that is inside them is so by what is told.

    Fractions are rounded inward, and leave out what the last of them allows.

    >>> write_wanted_of(Wanted(Limits(28.0, 27.0, 29.0, stated=True)), Figure(27.2), Shown("in"))
    '1.102 ±0.039 in'
    """
    if wanted.kind is not Kind.LENGTH:
        return write_wanted(wanted, shown)
    return write_limits(wanted.limits, shown, fine=_is_left_out(wanted.limits, size, shown))


def told_beside(wanted: Wanted, size: Figure | None, shown: Shown) -> ToldLimits:
    """Limits of a length by what `write_wanted_of` tells of them."""
    return told_limits(wanted.limits, shown, fine=_is_left_out(wanted.limits, size, shown))


def _is_left_out(limits: Limits, size: Figure | None, shown: Shown) -> bool:
    """Whether a size is inside its limits and outside of what fractions tell of them."""
    if size is None or not limits.contains(size.value):
        return False
    told, at = told_limits(limits, shown), convert(exact_of(size.value), "mm", shown.system)
    return (told.low is not None and at < told.low) or (told.high is not None and told.high < at)


def is_by_calliper(limit: Limit, shown: Shown) -> bool:
    """Whether a limit in inches is told in thousandths, and what it is held against with it."""
    if shown.system != "in" or limit.wanted.kind is not Kind.LENGTH:
        return False
    return bool(told_limits(limit.wanted.limits, shown).places)


def write_off(off: Figure, shown: Shown) -> str:
    """Return how far two lengths are apart: as finely as both are told, or as a hair.

    >>> write_off(Figure(25.4 / 64), Shown("in")), write_off(Figure(0.0), Shown("in"))
    ('1/64 in', 'a hair')
    """
    told = write_figure(off, shown, "hair")
    return write_figure(off, shown, "=") if is_in_64ths(off, shown) and off.value else told


def is_in_64ths(off: Figure, shown: Shown) -> bool:
    """Whether a length in inches is a whole number of sixty-fourths, as a rule shows them."""
    if off.kind is not Kind.LENGTH or shown.system != "in":
        return False
    return (convert(exact_of(off.value), "mm", "in") * 64).denominator == 1


def as_told(size: Fraction, told: ToldLimits, shown: Shown) -> Figure:
    """A size that is told among limits, as a length of the kind that is told as finely."""
    kind = Kind.FINE if told.places and shown.system == "in" else Kind.LENGTH
    return Figure(float(convert(size, shown.system, "mm")), kind)
