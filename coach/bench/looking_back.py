"""How a job's spare has gone from heat to heat, made by replaying it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from coach.bench.job_state import JobState
from coach.bench.numbered_now import numbered_now
from coach.bench.replay import apply
from coach.bench.standing import Standing, standing_of
from coach.forms import label
from coach.ledger.working import reshapes
from coach.ledger.workpiece import at_stock
from coach.log.amends import Amends
from coach.log.entries import Entry
from coach.log.kinds.amended import Amended
from coach.log.kinds.hand_known import HandKnown
from coach.log.kinds.shop_known import ShopKnown
from coach.quantities import Figure
from coach.recipe.model import Step

#: Of more moments than this only those are told that turn the job, and others as far as there is room: each
#: is a forecast of its own (our choice).
_MOST_MOMENTS = 16


class MomentOfSpare(NamedTuple):
    """The spare of one zone at one moment of a job."""

    entry: int  # after which entry, 0 for the beginning
    heats: int  # of the whole job up to then
    step: int  # the step then in hand, by the number that it has now
    zone: str
    dimension: str
    spare: Figure  # above the least that the drawing allows; negative when metal was missing
    chance: float  # of the whole drawing, as the job was told to stand then
    reckoned: float  # the same as far as the forecast goes, whatever else was told of the job

    @property
    def label(self) -> str:
        """As it is spoken of."""
        return label(self.zone, self.dimension)


class SpareGone(NamedTuple):
    """How the spare of a job has gone."""

    points: tuple[MomentOfSpare, ...]
    left_out: int  # so many moments between these were not looked at
    redrawn: tuple[int, ...] = ()  # the entries that asked for something else from then on, by number


def spare_gone(now: JobState, standing: Standing, *, every: bool = False) -> SpareGone:
    """The spare of every take-up dimension as a job began, at moments since, and now.

    Such moments are each way back and each loss, with that before it, and the end of each step that shapes
    the metal; heats and other ends of steps as well: all of them, or as many as there is room for where
    `every` one is not asked for. Of a job that is done the last is as it stands, in what was read since too.
    """
    counted = list(now.counted.values())
    changed = [at for at, one in enumerate(counted) if isinstance(one.body, Amends | Amended)]
    # What was so before it is told as well: else what is accepted at once was never lost.
    turns = {counted[at].number for one in changed for at in (one - 1, one) if at >= 0}
    turns |= {one.done_entry for one in now.records if one.done_entry and _shapes(one.step)}
    moved = [entry.number for entry in now.counted.values() if entry.body.MOVES_METAL]
    others = [number for number in moved[:-1] if number not in turns]
    room = len(others) if every else max(0, _MOST_MOMENTS - 1 - len({*turns, *moved[-1:]}))
    kept = others if len(others) <= room else [others[n * len(others) // room] for n in range(room)]
    last = [one.number for one in counted if one.body.IS_WORK] if now.step is None else moved
    told = {*turns, *kept, *moved[-1:], *last[-1:]}
    plan = now.first_plan
    state = JobState(plan, plan, start=at_stock(plan))
    entries = list(now.counted.values())
    known = (at for at, entry in enumerate(entries, 1) if isinstance(entry.body, HandKnown | ShopKnown))
    begun = max(known, default=0)  # what a job begins with took no metal
    for entry in entries[:begun]:
        apply(state, entry)
    found = [_numbered(one, entries[begun:]) for one in _points(state, entries[:begun])]
    for at, entry in enumerate(entries[begun:], begun + 1):
        apply(state, entry)
        if entry.number in told:
            points = _points(state, entries[:at], entry.number)
            found += [_numbered(one, entries[at:]) for one in points]
    if now.step is None and found:
        found = [_as_it_stands(one, standing) if one.entry == found[-1].entry else one for one in found]
    redrawn = (number for number, one in now.counted.items() if isinstance(one.body, Amended))
    return SpareGone(tuple(found), len(others) - len(kept), tuple(redrawn))


def _numbered(point: MomentOfSpare, since: Sequence[Entry]) -> MomentOfSpare:
    """A moment whose step has the number that it has now, after those that ways back put in before it."""
    return point._replace(step=numbered_now(since, point.step))


def _as_it_stands(point: MomentOfSpare, standing: Standing) -> MomentOfSpare:
    """The last moment of a job that is done, with the chance and the spare that are told of it everywhere."""
    of = (point.zone, point.dimension)
    spare = next((one.spare for one in standing.spares if (one.zone, one.dimension) == of), point.spare)
    return point._replace(chance=standing.chance, spare=spare)


def _shapes(step: Step) -> bool:
    return any(reshapes(step, zone) for zone in step.zones)


def _points(state: JobState, entries: Sequence[Entry], entry: int = 0) -> Iterator[MomentOfSpare]:
    found = state.forecast()
    if found is None or found.trouble:
        return
    chance = standing_of(entries, state).chance if entries else found.chance
    step = state.step.number if state.step is not None else len(state.plan.recipe.steps)
    of_job = state.heats_total, step
    for zone, forecast in found.zones.items():
        for one in forecast.spares[:1]:
            of = *of_job, zone, one.dimension
            yield MomentOfSpare(entry, *of, one.spare, chance, found.chance)
