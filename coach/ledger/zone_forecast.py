"""One zone at the end of its way, held against its drawing: sizes, spare metal, chance and reason."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from math import inf, prod, sqrt
from typing import NamedTuple

from coach.forms import Form, FormError, label
from coach.ledger.degrees import outside_share
from coach.ledger.plan import Plan
from coach.ledger.verdict import (
    ON_PLAN_CHANCE,
    PlanState,
    Reason,
    SizeState,
    Why,
    at_most,
    beyond_surely,
    conformance,
    plan_state,
)
from coach.ledger.working import LedgerError, ZoneState, fixed_free_mm, reshapes
from coach.ledger.workpiece import SCALE, Estimate, Workpiece, size_name, volume_slope
from coach.operations import operation
from coach.operations.measures import MARK
from coach.operations.shape import NOTHING
from coach.quantities import COVERAGE, Apart, Figure, Limit, Limits, Wanted, Words, mm, say
from coach.recipe.model import ZoneDrawing

#: What a gauge leaves in doubt of a forged face, mm: a calliper some 0.16, a rule 0.35 (`operations.gauges`)
#: (common practice, no source).
_GAUGE_DOUBT_MM = 0.25


class FinishedSize(NamedTuple):
    """One size of the drawing with what it is now expected to be."""

    name: str  # `blade.length`
    zone: str
    dimension: str
    wanted: Wanted  # by the drawing
    expected: Figure  # what it is now expected to be
    state: SizeState  # by the expected size alone
    take_up: bool  # whether spare or missing metal is allowed to show in it
    measured: bool = False  # whether it was read, and believed, since it was last worked
    seems: bool = False  # whether its state only seems so: it was read too near a limit to be sure of it
    missed: bool = False  # whether nobody measured it, it is not surely inside, and no step works it any more

    @property
    def label(self) -> str:
        """As it is spoken of."""
        return label(self.zone, self.dimension)

    @property
    def chance(self) -> float:
        """That it is within its limits."""
        return conformance(self.expected.value, self.expected.doubt or 0.0, self.wanted.limits)

    @property
    def bound_mm(self) -> float:
        """The limit that it is beyond, or inside that it is nearer to."""
        limits, size = self.wanted.limits, self.expected.value
        return limits.low if size - limits.low < limits.high - size else limits.high

    @property
    def bound(self) -> Limit:
        """The same limit, as it stands among what is wanted."""
        return Limit(self.wanted, low=self.bound_mm == self.wanted.limits.low)

    @property
    def off(self) -> Figure:
        """How far it is from that limit, on whichever side."""
        return self.expected._replace(value=abs(self.expected.value - self.bound_mm))

    @property
    def told(self) -> str:
        """Its state in words: as near to a limit as its doubt it seems so; what is missed is not good."""
        if self.missed and self.state is SizeState.GOOD:
            return "not measured"
        return f"seems {self.state.value}" if self.only_seems else self.state.value

    @property
    def is_surely_out(self) -> bool:
        """Whether it lies outside of its limits by more than the guard band."""
        return beyond_surely(self.expected.value, self.expected.doubt or 0.0, self.wanted.limits)

    @property
    def only_seems(self) -> bool:
        """Whether it was read, and lies as near to a limit as its doubt: another reading may settle it."""
        if not self.measured:
            return False
        if self.state is SizeState.GOOD:
            return self.chance < ON_PLAN_CHANCE
        return not self.is_surely_out

    def at(self, size: Figure, limits: Limits) -> FinishedSize:
        """It at another size, within other limits."""
        state = SizeState.of(size.value, limits)
        return self._replace(wanted=Wanted(limits), expected=size, state=state)

    def reason(self, why: Why) -> Reason:
        """It as what a zone or a job turns on."""
        beyond = self.expected._replace(value=self.expected.value - self.bound_mm)
        return Reason(why, self.zone, self.dimension, beyond, self.bound.figure, wanted=self.wanted)

    def words(self, *, to_come: bool) -> Words:
        """How it lies to its limits: as it is; where work or scale `to_come` changes it, as it comes out."""
        measured, reckoned = ("comes out at", "to come out at") if to_come else ("is", "at")
        is_ = measured if self.measured else f"is not measured; it is reckoned {reckoned}"
        off_by = say("{:hair} {} the", Apart(self.expected, self.bound), self.state)
        off_by = say("which seems {}", off_by) if self.only_seems else off_by
        where, sure = ("too near the", " to be sure of") if self.state is SizeState.GOOD else (off_by, "")
        told = "{} {} {:±}, {} {} the drawing allows{}"
        return say(told, self.label, is_, self.expected, where, self.bound, sure)


class Spare(NamedTuple):
    """Metal above the least that the drawing allows, told in a dimension where it may show."""

    zone: str
    dimension: str
    spare: Figure  # how much; negative when metal is missing
    chance: float  # that the zone makes the drawing

    @property
    def label(self) -> str:
        """As it is spoken of."""
        return label(self.zone, self.dimension)

    def reason(self, why: Why, limits: Limits) -> Reason:
        """It as what a zone or a job turns on, by the limits that the drawing sets the dimension."""
        return Reason(why, self.zone, self.dimension, self.spare, mm(least_of(limits)))


class ZoneForecast(NamedTuple):
    """One zone at the end of the job."""

    zone: str
    sizes: tuple[FinishedSize, ...]
    spares: tuple[Spare, ...]
    chance: float  # of making the drawing
    metal_chance: float  # that its metal is enough, whatever its sizes
    enough_chance: float  # the same; of a zone that was measured as it will stay, that it is not too short
    volume: Estimate  # mm³
    least_mm3: float
    reason: Reason | None  # None when nothing is wrong
    nearest: Reason | None = None  # what it is the least sure of, if anything
    inside: Mapping[str, float] = NOTHING  # of each size that takes up no metal, that it is within its limits
    leads: Mapping[str, str] = NOTHING  # by each of them the one that it goes with, or itself
    as_marked: Figure | None = None  # mm: what its length has to spare, where no step moves its metal
    mm3_per_mm: float = 0.0  # and how much metal that takes

    def inside_besides(self, known: Collection[tuple[str, str]]) -> float:
        """That all of them are within their limits, but for some and what goes with those."""
        gone = {self.leads.get(dimension) for zone, dimension in known if zone == self.zone}
        counted = {name: one for name, one in self.inside.items() if self.leads[name] not in gone}
        return _all_inside(counted, self.leads)

    def reason_besides(self, known: Collection[tuple[str, str]], drawing: ZoneDrawing) -> Reason | None:
        """What it lacks or is the least sure of, but for some sizes and what goes with those."""
        gone = {self.leads.get(dimension) for zone, dimension in known if zone == self.zone}
        bound = [one for one in self.sizes if one.dimension in self.inside]
        told = [one for one in bound if self.leads[one.dimension] not in gone]
        reason = _of_sizes(told, self.inside, self.enough_chance)
        if reason is not None or not self.spares:
            return reason
        return self.spares[0].reason(Why.SHORT, drawing.limits[self.spares[0].dimension])

    @property
    def extra_mm3(self) -> float:
        """Metal to mark out beyond the plan so that the zone's volume suffices with 95 % confidence."""
        return self.lacking_mm3(COVERAGE)

    def lacking_mm3(self, doubts: float) -> float:
        """Metal that it lacks of enough with so many standard uncertainties; 0 where it has that.

        What no step moves is as long as its marks say, whatever bar is between them.
        """
        if self.as_marked is not None:
            short_mm = doubts * (self.as_marked.doubt or 0.0) - self.as_marked.value
            return max(0.0, short_mm) * self.mm3_per_mm
        return max(0.0, doubts * self.volume.doubt - (self.volume.value - self.least_mm3))


def zone_forecast(
    plan: Plan,
    workpiece: Workpiece,
    zone: str,
    before_fixing: Mapping[str, Figure] = NOTHING,
    read: Mapping[str, Figure] = NOTHING,
    inferred: Mapping[str, float] = NOTHING,
    *,
    in_hand: float = 0.0,
    is_laid: bool = False,
) -> ZoneForecast:
    """One zone against its drawing, as it is in a workpiece at the end of its way.

    `before_fixing` is what it had to spare, by the dimension, before metal was taken away to reach a stated
    size, if it ends so; `read` what it has to spare by what was read since it was last shaped; `inferred` are
    the sizes, as the belief names them, that only follow from what was read of others, each with how surely.
    As surely as its last shaping is `in_hand` metal that would be enough for it may still be worked to it.
    Steel that `is_laid` on already nobody can measure: a size of it counts by as much as it surely is beyond.
    """
    form, volume, least = workpiece.form(zone), metal_of(plan, workpiece, zone), plan.least_mm3[zone]
    drawing, state = plan.recipe.drawing[zone], workpiece.zones[zone]
    sizes = []
    for name, limits in drawing.limits.items():
        if name in form.DIMENSIONS:
            size = workpiece.size(zone, name, form)
            expected, seems = mm(size.value, size.doubt), SizeState.of(size.value, limits)
            about = f"{zone}.{name}", zone, name, Wanted(limits)
            sizes.append(FinishedSize(*about, expected, seems, name in drawing.take_up))
    found = {name: spare_of(name, drawing.limits[name], form, volume) for name in drawing.take_up}
    metal_chance = 1.0 - at_most(least, volume.value, volume.doubt)
    for spare in before_fixing.values():
        metal_chance = 1.0 - at_most(0.0, spare.value, spare.doubt or 0.0)
    enough_chance = metal_chance
    found |= {name: spare for name, spare in before_fixing.items() if found.get(name)}
    as_it_stays = ""  # the size that the metal settles, where it was measured and stays so
    for name, spare in read.items():
        long_enough = 1.0 - at_most(0.0, spare.value, spare.doubt or 0.0)
        enough_chance = in_hand * max(long_enough, metal_chance) + (1.0 - in_hand) * long_enough
        if in_hand < 0.5 or long_enough > metal_chance:
            found[name], as_it_stays = spare, name
    bound = [one for one in sizes if not one.take_up]
    inside = {
        size.dimension: unless_inside(size)
        if is_laid
        else _inside(size, inferred=inferred.get(size_name(zone, state.leader(size.dimension)), 0.0))
        for size in bound
    }
    leads = {name: state.leader(name) for name in inside}
    chance = enough_chance * _all_inside(inside, leads)
    spares = tuple(Spare(zone, name, spare, chance) for name, spare in found.items() if spare is not None)
    told = [size for size in bound if not _goes_along(state, size, bound)]
    reason = _of_sizes(told, inside, enough_chance)
    if reason is None and spares and plan_state(enough_chance) is not PlanState.ON_PLAN:
        reason = spares[0].reason(Why.SHORT, drawing.limits[spares[0].dimension])
        stays = next((one for one in sizes if one.dimension == as_it_stays), None)
        if stays is not None and stays.state is SizeState.GOOD:
            reason = stays.reason(Why.NEAR)
    nearest = reason or _nearest(told, inside, enough_chance)
    if nearest is None and spares:
        nearest = spares[0].reason(Why.SHORT, drawing.limits[spares[0].dimension])
    chances = chance, metal_chance, enough_chance
    unmoved = _as_it_is(plan, workpiece, zone, state.free) if is_unmoved(plan, zone) else {}
    return ZoneForecast(
        *(zone, tuple(sizes), spares, *chances, volume, least, reason, nearest, inside, leads),
        as_marked=unmoved.get(state.free),
        mm3_per_mm=abs(volume_slope(form, state.free)) if unmoved else 0.0,
    )


def metal_of(plan: Plan, workpiece: Workpiece, zone: str, worn_share: float = 1.0) -> Estimate:
    """The volume of a zone, to be held against the least that the plan reckons.

    What a hungrier fire takes off its sizes once they are made is no metal that it lacks: it is counted in,
    by the share of those heats that it had.
    """
    volume, worn_mm3 = workpiece.volume(zone), worn_share * plan.worn_mm3[zone]
    if not worn_mm3:
        return volume
    slopes = {**volume.slopes, SCALE: worn_mm3}
    more_mm3 = (workpiece.scale_factor() - 1.0) * worn_mm3
    return Estimate(volume.value + more_mm3, sqrt(workpiece.belief.variance_of(slopes)), slopes)


def unless_inside(size: FinishedSize) -> float:
    """Its chance as far as it surely is beyond its limits."""
    beyond_mm = size.off.value if size.state is not SizeState.GOOD else 0.0
    return 1.0 - outside_share(beyond_mm, size.expected.doubt or 0.0) * (1.0 - size.chance)


def _inside(size: FinishedSize, *, inferred: float) -> float:
    """How far a size has kept the chance of being inside that its target has: 1 there, half at a limit.

    It counts with no more doubt than a gauge leaves, but for one that no gauge was put to: how the hand will
    scatter in the work to come is no part of where the piece stands. As surely as it is `inferred` none was.
    """
    doubt = max(size.expected.doubt or 0.0, 1e-9)
    by_gauge = _kept(size, min(doubt, _GAUGE_DOUBT_MM)) if inferred < 1.0 else 0.0
    return by_gauge + inferred * (_kept(size, doubt) - by_gauge) if inferred else by_gauge


def _kept(size: FinishedSize, doubt: float) -> float:
    limits = size.wanted.limits
    aimed = conformance(limits.nominal, doubt, limits)
    return min(1.0, conformance(size.expected.value, doubt, limits) / aimed) if aimed else 1.0


def _all_inside(inside: Mapping[str, float], leads: Mapping[str, str]) -> float:
    """The same of several; of those that go with one another only the worst: they hang on one doubt."""
    found: dict[str, float] = {}
    for dimension, chance in inside.items():
        leader = leads[dimension]
        found[leader] = min(found.get(leader, 1.0), chance)
    return prod(found.values())


def _goes_along(state: ZoneState, size: FinishedSize, sizes: Sequence[FinishedSize]) -> bool:
    """Whether a size only goes with another of the same limits: the other is told of."""
    leader = state.leader(size.dimension)
    return any(one is not size and one.dimension == leader and one.wanted == size.wanted for one in sizes)


def _of_sizes(
    sizes: Sequence[FinishedSize], inside: Mapping[str, float], metal_chance: float
) -> Reason | None:
    """A size that stays wrong before one that is too near; metal that may not be enough comes between."""
    off = [size for size in sizes if size.state is not SizeState.GOOD]
    if off:
        return off[-1].reason(Why.UNDER if off[-1].state is SizeState.UNDER else Why.OVER)
    near = _nearest(sizes, inside, metal_chance)
    return near if near is not None and inside[near.dimension] < ON_PLAN_CHANCE else None


def _nearest(
    sizes: Sequence[FinishedSize], inside: Mapping[str, float], metal_chance: float
) -> Reason | None:
    """The size that is nearest to its limit, where that is less sure than the metal."""
    near = min(sizes, key=lambda size: inside[size.dimension], default=None)
    if near is not None and inside[near.dimension] < metal_chance:
        return near.reason(Why.NEAR)
    return None


def once_fixed(plan: Plan, workpiece: Workpiece, zone: str) -> dict[str, Figure]:
    """The spare of a zone whose end is behind it, cut or ground to a stated size: that of the size itself.

    So is that of what no step moves, which is as long as its marks say; once it is read, that counts.
    """
    if is_unmoved(plan, zone):
        state = workpiece.zones[zone]
        return {} if state.measured else _as_it_is(plan, workpiece, zone, state.free)
    shaped = [stage for stage in plan.stages[zone] if reshapes(stage.step, zone)]
    if not shaped or fixed_free_mm(shaped[-1].step, shaped[-1].after) is None:
        return {}
    return _as_it_is(plan, workpiece, zone, shaped[-1].after.free)


def is_unmoved(plan: Plan, zone: str) -> bool:
    """Whether a zone of a bar stays as long as it is marked: none of its metal is moved, or parted.

    What is ground or filed off its faces leaves its length alone.
    """
    if zone not in plan.recipe.piece_of(zone).zones:
        return False
    return all(
        not stage.step.parts
        and (
            not reshapes(stage.step, zone)
            or (operation(stage.step.operation).FIXES and fixed_free_mm(stage.step, stage.after) is None)
        )
        for stage in plan.stages[zone]
    )


def once_read(plan: Plan, workpiece: Workpiece, zone: str) -> dict[str, Figure]:
    """The spare of a zone that no step ahead shapes, where the size that its metal settles was read: its own.

    Whatever section it has, no metal will be moved to make more of it, or less.
    """
    state = workpiece.zones[zone]
    return _as_it_is(plan, workpiece, zone, state.free) if state.measured else {}


def _as_it_is(plan: Plan, workpiece: Workpiece, zone: str, free: str) -> dict[str, Figure]:
    limits = plan.recipe.drawing[zone].limits.get(free)
    if limits is None or workpiece.zones[zone].free != free:
        return {}
    size = workpiece.size(zone, free)
    return {free: mm(size.value - least_of(limits), size.doubt)}


def least_of(limits: Limits) -> float:
    """The least that limits allow: the size itself where no low limit is given."""
    return limits.low if limits.low > -inf else limits.nominal


def spare_of(dimension: str, limits: Limits, form: Form, volume: Estimate) -> Figure | None:
    """What a solid has to spare in a dimension, by its volume's doubt; None where it has no such size."""
    try:
        slope = volume_slope(form, dimension)
        return mm(form.size_mm(dimension) - least_of(limits), volume.doubt / abs(slope) if slope else 0.0)
    except FormError:
        return None


def expected_size(workpiece: Workpiece, zone: str, dimension: str) -> Estimate | None:
    """What a size is expected to be in a workpiece, or None when it cannot be told."""
    state = workpiece.zones[zone]
    if not state.has_form or dimension not in (*state.shape.dimensions, MARK):
        return None
    try:
        return workpiece.size(zone, dimension)
    except LedgerError:
        return None
