"""Where the least metal is to spare, of what every zone has of it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from coach.ledger.verdict import Reason, Why
from coach.ledger.zone_forecast import Spare
from coach.quantities import Words
from coach.recipe.model import ZoneDrawing


def tightest(spares: Sequence[Spare], drawing: Mapping[str, ZoneDrawing]) -> Reason:
    """The size, of the first that is told of each zone, that has the least to spare for its doubt."""
    firsts = {one.zone: one for one in reversed(spares)}
    if not firsts:
        return Reason(Why.ENOUGH)
    found = min(firsts.values(), key=lambda one: one.spare.value / max(one.spare.doubt or 0.0, 1e-9))
    # The chance goes by the metal, the spare by the section as it is: within its limits, but full.
    why = Why.FULL if found.spare.value < 0.0 else Why.TIGHTEST
    return found.reason(why, drawing[found.zone].limits[found.dimension])


def as_told(
    reason: Reason | Words, spares: Sequence[Spare], drawing: Mapping[str, ZoneDrawing]
) -> Reason | Words:
    """A reason that goes by what there is to spare, by the rows that tell of it; any other as it is."""
    by_spare = isinstance(reason, Reason) and reason.why in (Why.TIGHTEST, Why.FULL)
    return tightest(spares, drawing) if by_spare else reason
