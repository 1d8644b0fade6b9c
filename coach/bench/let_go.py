"""Sizes that a way back let go: how many of them are not as they were first drawn."""

from __future__ import annotations

from collections.abc import Iterable

from coach.bench.job_state import JobState
from coach.bench.sizes_came import SizeCame, SizeVerdict, changed_by_ways, verdict_of
from coach.ledger.zone_forecast import FinishedSize


def let_go_outside(state: JobState, sizes: Iterable[FinishedSize]) -> int:
    """How many sizes were let go by a way back and are not as drawn; a haft draws its eye anew."""
    first, now, changed = state.first_plan.recipe.drawing, state.plan.recipe.drawing, changed_by_ways(state)
    count = 0
    for size in sizes:
        at, let_go = (size.zone, size.dimension), changed.get((size.zone, size.dimension))
        if let_go is None or let_go.haft or at[0] not in first or at[1] not in first[at[0]].limits:
            continue
        drawn = state.redrawn.get(at, first[at[0]].limits[at[1]])
        allowed = now[at[0]].limits[at[1]]
        verdict = verdict_of(size.expected, drawn, allowed)
        count += verdict is SizeVerdict.LET_GO
    return count


def seems_let_go(size: SizeCame) -> bool:
    """Whether a size that nobody measured was let go by a way back and is reckoned to be not as drawn."""
    let_go, allowed = size.let_go, size.allowed
    if size.verdict is not SizeVerdict.NOT_MEASURED or let_go is None or let_go.haft:
        return False
    if size.reckoned is None or size.wanted is None or allowed is None:
        return False
    return verdict_of(size.reckoned, size.wanted.limits, allowed.limits) is SizeVerdict.LET_GO
