"""Limits as the file of a recipe says them: a size with what it may be off, in the unit of the file."""

from __future__ import annotations

from math import isinf

from coach.quantities import Kind, Limits
from coach.quantities.units import System

_MM_IN_AN_INCH = 25.4
#: Digits behind the mark that say a size nearer than anyone forges it (our choice).
_DIGITS = {"mm": 3, "in": 4}


def limits_text(limits: Limits, unit: System = "mm", kind: Kind = Kind.LENGTH) -> str:
    """The text that is read back to these limits, but for what is behind the last digit told.

    >>> limits_text(Limits(28.0, 27.0, 28.0, True)), limits_text(Limits(20.0, 18.5, 21.5, True))
    ('28 +0 -1', '20 ±1.5')
    """
    size = size_text(limits.nominal, unit, kind)
    if not limits.stated:
        return size
    if isinf(limits.low) and isinf(limits.high):
        return size
    if isinf(limits.high):
        return f"{size}, at least {size_text(limits.low, unit, kind)}"
    if isinf(limits.low):
        return f"{size}, at most {size_text(limits.high, unit, kind)}"
    more = size_text(limits.high - limits.nominal, unit, kind)
    less = size_text(limits.nominal - limits.low, unit, kind)
    return f"{size} ±{more}" if more == less else f"{size} +{more} -{less}"


def size_text(size: float, unit: System = "mm", kind: Kind = Kind.LENGTH) -> str:
    """A size without its unit where that is the file's; an angle in degrees."""
    if kind is Kind.LENGTH or kind is Kind.GAP:
        size = size / _MM_IN_AN_INCH if unit == "in" else size
        return f"{size:.{_DIGITS[unit]}f}".rstrip("0").rstrip(".")
    return f"{size:.2f}".rstrip("0").rstrip(".")
