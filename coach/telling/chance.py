"""A chance, as it is told."""

from __future__ import annotations

from math import isnan

from coach.ledger.verdict import ON_PLAN_CHANCE, TIGHT_CHANCE


def chance_text(chance: float) -> str:
    """Return a chance in whole per cent; never told as certain, for nothing at the anvil is.

    Nor is it rounded up to where a state begins that it does not reach: 94.6 % is tight, and so not 95 %.

    >>> chance_text(0.874), chance_text(0.946), chance_text(1.0), chance_text(0.0)
    ('87 %', '94 %', 'over 99 %', 'under 1 %')
    """
    if isnan(chance):
        return "chance not known"
    whole = round(100.0 * chance)
    if any(chance < limit <= whole / 100.0 for limit in (ON_PLAN_CHANCE, TIGHT_CHANCE)):
        whole -= 1
    return "over 99 %" if whole >= 100 else "under 1 %" if whole <= 0 else f"{whole} %"
