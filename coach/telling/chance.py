"""A chance as it is told."""

from __future__ import annotations

from math import isnan


def chance_text(chance: float) -> str:
    """Return a chance in whole per cent; never told as certain, for nothing at the anvil is.

    >>> chance_text(0.874), chance_text(1.0), chance_text(0.0)
    ('87 %', 'over 99 %', 'under 1 %')
    """
    if isnan(chance):
        return "chance not known"
    whole = round(100.0 * chance)
    return "over 99 %" if whole >= 100 else "under 1 %" if whole <= 0 else f"{whole} %"
