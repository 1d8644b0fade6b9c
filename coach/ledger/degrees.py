"""How surely a limit is passed: by degrees, so that no hundredth of a millimetre turns the tale."""

from __future__ import annotations

from math import pi, sqrt

from coach.quantities import COVERAGE

#: So many standard uncertainties on either side of a limit make a rise as steep in its middle as the normal
#: distribution is: 1.5 / (2 s u) = 1 / (√(2π) u) (computed).
_AS_STEEP_AS_NORMAL = 0.75 * sqrt(2.0 * pi)


def rising(x: float) -> float:
    """From 0 at 0 to 1 at 1, without a corner at either end."""
    x = min(1.0, max(0.0, x))
    return x * x * (3.0 - 2.0 * x)


def outside_share(beyond_mm: float, doubt_mm: float) -> float:
    """How surely a size counts as outside of its limit: none at it, certain a guard band beyond.

    It rises without a corner at either end.
    """
    return rising(beyond_mm / max(COVERAGE * doubt_mm, 1e-9))


def likely_past(off_mm: float, limit_mm: float, doubt_mm: float) -> float:
    """How surely a size that nobody read counts as beyond its limit: not at all at it, half two doubts on.

    It rises no steeper than the chance that it is beyond.

    Args:
        off_mm: how far from its target it lies, towards that limit.
        limit_mm: how far the limit does.
        doubt_mm: its standard uncertainty.
    """
    reach_mm = _AS_STEEP_AS_NORMAL * max(doubt_mm, 1e-9)
    return rising(0.5 * (off_mm - limit_mm) / reach_mm)
