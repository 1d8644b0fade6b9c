"""Where the least metal is to spare, of what every zone has of it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from coach.ledger.verdict import Reason, SizeState, Why
from coach.ledger.zone_forecast import FinishedSize, Spare
from coach.quantities import Words, mm
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
    reason: Reason | Words,
    spares: Sequence[Spare],
    sizes: Sequence[FinishedSize],
    drawing: Mapping[str, ZoneDrawing],
) -> Reason | Words:
    """A reason by the rows that tell of it: of what there is to spare, or of a size that was measured."""
    if not isinstance(reason, Reason):
        return reason
    if reason.why in (Why.TIGHTEST, Why.FULL):
        return tightest(spares, drawing)
    if reason.why not in (Why.UNDER, Why.OVER, Why.NEAR):
        return reason
    size = reason.zone, reason.dimension
    row = next((one for one in sizes if one.measured and (one.zone, one.dimension) == size), None)
    if row is None or mm(row.bound_mm) != reason.bound:
        return reason
    # A size that was read inside is not told as outside, whatever was reckoned of it.
    why = Why.NEAR if row.state is SizeState.GOOD else reason.why
    told = row.reason(why)
    return reason._replace(why=why, beyond=told.beyond, bound=told.bound, wanted=told.wanted)
