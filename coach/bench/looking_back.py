"""How a job's spare has gone from heat to heat, made by replaying it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from coach.bench.replay import JobState, apply
from coach.forms import label
from coach.ledger.workpiece import at_stock
from coach.quantities import Figure

#: More moments than this are thinned out: nobody sees more on a screen, and each is a forecast of its own
#: (our choice).
_MOST_MOMENTS = 60


class MomentOfSpare(NamedTuple):
    """The spare of one zone at one moment of a job."""

    entry: int  # after which entry, 0 for the beginning
    heats: int  # of the whole job up to then
    step: int  # the step then in hand
    zone: str
    dimension: str
    spare: Figure  # above the least that the drawing allows; negative when metal was missing
    chance: float  # of the whole drawing

    @property
    def label(self) -> str:
        """As it is spoken of."""
        return label(self.zone, self.dimension)


def spare_points(now: JobState) -> tuple[MomentOfSpare, ...]:
    """The spare of every take-up dimension at the start of a job and after its heats and steps up to now."""
    moments = [entry.number for entry in now.counted.values() if entry.body.MOVES_METAL]
    every = -(-len(moments) // _MOST_MOMENTS) or 1
    told = {0, *moments[::every], *moments[-1:]}
    plan = now.first_plan
    state = JobState(plan, plan, start=at_stock(plan))
    found = list(_points(state, 0))
    for entry in now.counted.values():
        apply(state, entry)
        if entry.number in told:
            found += _points(state, entry.number)
    return tuple(found)


def _points(state: JobState, entry: int) -> Iterator[MomentOfSpare]:
    found = state.forecast()
    if found is None or found.trouble:
        return
    step = state.step.number if state.step is not None else len(state.plan.recipe.steps)
    for zone, forecast in found.zones.items():
        for one in forecast.spares[:1]:
            yield MomentOfSpare(entry, state.heats_total, step, zone, one.dimension, one.spare, found.chance)
