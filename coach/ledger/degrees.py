"""How surely a limit is passed: by degrees, so that no hundredth of a millimetre turns the tale."""

from __future__ import annotations

from coach.quantities import COVERAGE


def rising(x: float) -> float:
    """From 0 at 0 to 1 at 1, without a corner at either end."""
    x = min(1.0, max(0.0, x))
    return x * x * (3.0 - 2.0 * x)


def outside_share(beyond_mm: float, doubt_mm: float) -> float:
    """How surely a size counts as outside of its limit: none at it, certain a guard band beyond.

    It rises without a corner at either end.
    """
    return rising(beyond_mm / max(COVERAGE * doubt_mm, 1e-9))
