"""What the doubt of a size comes from: the bar, the marks, the fire, how metal spreads, the work itself."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from enum import Enum
from typing import NamedTuple

from coach.ledger.belief import Belief
from coach.ledger.plan import Plan
from coach.ledger.workpiece import SCALE, SPREAD, bar_name, bar_of_piece, mark_name

#: A source that is known to this share of its variance is known (our choice).
_KNOWN_SHARE = 1e-9


class DoubtFrom(Enum):
    """What makes a size uncertain."""

    BAR = "bar"  # its section, which is rolled as it is
    MARKS = "marks"  # where they lie on it
    SCALE = "scale"  # how much of it the shop's fire takes
    SPREAD = "spread"  # how the shop's blows share the metal out between width and length
    WORK = "work"  # the hand, each heat's own, and the gauges


class ShareOfDoubt(NamedTuple):
    """How much of a size's variance one source makes."""

    source: DoubtFrom
    share: float


def shares_of_doubt(plan: Plan, belief: Belief, slopes: Mapping[str, float]) -> tuple[ShareOfDoubt, ...]:
    """How much of the variance of a combination of quantities each source makes, the largest first.

    The part of source x is Cov(m, x)² / Var x, by which the variance of m falls where x becomes known; where
    sources hang together the largest is known first, and the others make what is left (the conditional
    variance of a joint Gaussian: A. Gelb, Applied Optimal Estimation, 1974, 4.2, from memory). What is of no
    source by name is the work's.

    Args:
        plan: whose bars and marks they are.
        belief: that of a workpiece whose bars and marks are told apart (`at_stock`).
        slopes: how the size hangs on the believed quantities.
    """
    whole = left = belief.variance_of(slopes)
    if whole <= 0.0:
        return ()
    found = dict.fromkeys(DoubtFrom, 0.0)
    open_still = {name: source for name, source in _named(plan) if name in belief}
    while open_still:
        parts = {name: _part(belief, name, slopes) for name in open_still}
        largest = max(parts, key=parts.__getitem__)
        if parts[largest] <= _KNOWN_SHARE * whole:
            break
        found[open_still.pop(largest)] += parts[largest]
        left -= parts[largest]
        belief = belief.update({largest: 1.0}, 0.0, _KNOWN_SHARE * belief.variance(largest))
    found[DoubtFrom.WORK] = max(left, 0.0)
    shares = (ShareOfDoubt(source, part / whole) for source, part in found.items() if part)
    return tuple(sorted(shares, key=lambda one: -one.share))


def _named(plan: Plan) -> Iterator[tuple[str, DoubtFrom]]:
    yield SCALE, DoubtFrom.SCALE
    yield SPREAD, DoubtFrom.SPREAD
    for piece in plan.recipe.pieces.values():
        for dimension in piece.stock.sizes_mm:
            yield bar_name(bar_of_piece(plan.recipe, piece), dimension), DoubtFrom.BAR
        for index in range(len(piece.zones)):
            yield mark_name(piece.name, index), DoubtFrom.MARKS


def _part(belief: Belief, name: str, slopes: Mapping[str, float]) -> float:
    variance = belief.variance(name)
    return belief.covariance_with(name, slopes) ** 2 / variance if variance > 0.0 else 0.0
