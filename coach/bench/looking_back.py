"""How a job's spare has gone from heat to heat, made by replaying it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from coach.bench.replay import DONE, HEAT, JobState, apply, corrections
from coach.bench.sentences import label
from coach.bench.standing import SparePointView
from coach.ledger.plan import Plan
from coach.ledger.verdict import GUARD_FACTOR
from coach.ledger.workpiece import at_stock
from coach.log.entries import Entry
from coach.quantities import Shown

#: More moments than this are thinned out: nobody sees more on a screen, and each is a forecast of its own.
_MOST_MOMENTS = 60


def spare_points(
    plan: Plan, entries: Sequence[Entry], out: frozenset[int], shown: Shown
) -> tuple[SparePointView, ...]:
    """The spare of every take-up dimension at the start and after the heats and steps of a job.

    Args:
        plan: as the job began.
        entries: all of them.
        out: the numbers of those that are struck out.
        shown: the units that reasons would be told in.
    """
    counted = [entry for entry in entries if entry.number not in out]
    moments = [entry.number for entry in counted if entry.kind in (HEAT, DONE)]
    every = -(-len(moments) // _MOST_MOMENTS) or 1
    told = {0, *moments[::every], *moments[-1:]}
    corrected = corrections(entries, out)
    state = JobState(plan, plan, start=at_stock(plan))
    found: list[SparePointView] = list(_points(state, 0, shown))
    for entry in counted:
        apply(state, corrected.get(entry.number, entry))
        if entry.number in told:
            found += _points(state, entry.number, shown)
    return tuple(found)


def _points(state: JobState, entry: int, shown: Shown) -> Iterator[SparePointView]:
    course = state.course()
    found = state.forecast(course)
    if found is None or found.trouble:
        return
    for zone, forecast in found.zones.items():
        for spare in forecast.spares[:1]:
            band = GUARD_FACTOR * spare.doubt_mm
            yield SparePointView(
                entry=entry,
                heats=state.heats_total,
                step=state.step.number if state.step is not None else len(state.plan.recipe.steps),
                zone=zone,
                dimension=spare.dimension,
                label=label(zone, spare.dimension),
                spare=spare.spare_mm,
                at_least=spare.spare_mm - band,
                at_most=spare.spare_mm + band,
                chance=found.chance,
            )
