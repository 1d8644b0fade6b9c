"""One zone at the end of its way, held against its drawing: sizes, spare metal, chance and reason."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from math import inf, prod
from typing import NamedTuple

from coach.forms import Form, FormError
from coach.ledger.plan import Plan
from coach.ledger.verdict import (
    ON_PLAN_CHANCE,
    PlanState,
    Reason,
    SizeState,
    Why,
    at_most,
    conformance,
    plan_state,
)
from coach.ledger.working import LedgerError, ZoneState, fixed_free_mm, reshapes
from coach.ledger.workpiece import Estimate, Workpiece, size_name, volume_slope
from coach.operations.measures import MARK
from coach.quantities import COVERAGE, Limits, mm

#: What a gauge leaves in doubt of a forged face, mm: a calliper some 0.16, a rule 0.35 (`operations.gauges`).
_GAUGE_DOUBT_MM = 0.25


class FinishedSize(NamedTuple):
    """One size of the drawing with what it is now expected to be."""

    zone: str
    dimension: str
    limits: Limits
    expected_mm: float
    doubt_mm: float

    @property
    def state(self) -> SizeState:
        """Whether it is good, by the expected size alone."""
        return SizeState.of(self.expected_mm, self.limits)

    @property
    def chance(self) -> float:
        """That it is within its limits."""
        return conformance(self.expected_mm, self.doubt_mm, self.limits)

    @property
    def bound_mm(self) -> float:
        """The limit that it is beyond; the high one where it is good."""
        return self.limits.low if self.state is SizeState.UNDER else self.limits.high

    @property
    def off_mm(self) -> float:
        """How far it is beyond its limits; 0 where it is good."""
        return max(self.limits.low - self.expected_mm, self.expected_mm - self.limits.high, 0.0)


class Spare(NamedTuple):
    """Metal above the least that the drawing allows, told in a take-up dimension; negative when short."""

    zone: str
    dimension: str
    spare_mm: float
    doubt_mm: float
    least_mm: float  # that the drawing allows

    @property
    def at_least_mm(self) -> float:
        """The spare that is there with 95 % confidence."""
        return self.spare_mm - COVERAGE * self.doubt_mm

    def reason(self, why: Why) -> Reason:
        """It as what a zone or a job turns on."""
        return Reason(why, self.zone, self.dimension, mm(self.spare_mm, self.doubt_mm), mm(self.least_mm))


class ZoneForecast(NamedTuple):
    """One zone at the end of the job."""

    zone: str
    sizes: tuple[FinishedSize, ...]
    spares: tuple[Spare, ...]
    chance: float  # of making the drawing
    metal_chance: float  # that its metal is enough, whatever its sizes
    volume_mm3: float
    volume_doubt_mm3: float
    least_mm3: float
    reason: Reason | None  # None when nothing is wrong

    @property
    def extra_mm3(self) -> float:
        """Metal to mark out beyond the plan so that the zone's volume suffices with 95 % confidence."""
        return max(0.0, COVERAGE * self.volume_doubt_mm3 - (self.volume_mm3 - self.least_mm3))


def zone_forecast(
    plan: Plan,
    workpiece: Workpiece,
    zone: str,
    before_fixing: Spare | None = None,
    inferred: Collection[str] = (),
) -> ZoneForecast:
    """One zone against its drawing, as it is in a workpiece at the end of its way.

    `before_fixing` is what it had to spare before metal was taken away to reach a stated size, if it ends so;
    `inferred` are the sizes, as the belief names them, that only follow from what was read of others.
    """
    form, volume, least = workpiece.form(zone), workpiece.volume(zone), plan.least_mm3[zone]
    drawing = plan.recipe.drawing[zone]
    sizes = []
    for name, limits in drawing.limits.items():
        if name in form.DIMENSIONS:
            size = workpiece.size(zone, name, form)
            sizes.append(FinishedSize(zone, name, limits, size.value, size.doubt))
    found = (spare_of(zone, name, drawing.limits[name], form, volume) for name in drawing.take_up)
    spares = [spare for spare in found if spare is not None]
    metal_chance = 1.0 - at_most(least, volume.value, volume.doubt)
    fixed = before_fixing or once_fixed(plan, workpiece, zone)
    if fixed is not None:
        metal_chance = 1.0 - at_most(0.0, fixed.spare_mm, fixed.doubt_mm)
        spares = [fixed if one.dimension == fixed.dimension else one for one in spares]
    bound = [one for one in sizes if one.dimension not in drawing.take_up]
    state = workpiece.zones[zone]
    inside = {
        size.dimension: _inside(size, inferred=size_name(zone, state.leader(size.dimension)) in inferred)
        for size in bound
    }
    chance = metal_chance * _all_inside(state, inside)
    return ZoneForecast(
        zone,
        tuple(sizes),
        tuple(spares),
        chance,
        metal_chance,
        volume.value,
        volume.doubt,
        least,
        _reason(
            metal_chance, spares, [size for size in bound if not _goes_along(state, size, bound)], inside
        ),
    )


def _inside(size: FinishedSize, *, inferred: bool) -> float:
    """How far a size has kept the chance of being inside that its target has: 1 there, half at a limit.

    It counts with no more doubt than a gauge leaves, but for one that no gauge was put to: how the hand will
    scatter in the work to come is no part of where the piece stands.
    """
    doubt = max(size.doubt_mm, 1e-9)
    doubt = doubt if inferred else min(doubt, _GAUGE_DOUBT_MM)
    aimed = conformance(size.limits.nominal, doubt, size.limits)
    return min(1.0, conformance(size.expected_mm, doubt, size.limits) / aimed) if aimed else 1.0


def _all_inside(state: ZoneState, inside: Mapping[str, float]) -> float:
    """The same of several; of those that go with one another only the worst: they hang on one doubt."""
    found: dict[str, float] = {}
    for dimension, chance in inside.items():
        leader = state.leader(dimension)
        found[leader] = min(found.get(leader, 1.0), chance)
    return prod(found.values())


def _goes_along(state: ZoneState, size: FinishedSize, sizes: Sequence[FinishedSize]) -> bool:
    """Whether a size only goes with another of the same limits: the other is told of."""
    leader = state.leader(size.dimension)
    return any(one is not size and one.dimension == leader and one.limits == size.limits for one in sizes)


def _reason(
    metal_chance: float, spares: Sequence[Spare], sizes: Sequence[FinishedSize], inside: Mapping[str, float]
) -> Reason | None:
    """A size that stays wrong before metal that may not be enough, and that before one that is too near."""
    off = [size for size in sizes if size.state is not SizeState.GOOD]
    if off:
        size = off[-1]
        return _of_size(size, Why.UNDER if size.state is SizeState.UNDER else Why.OVER, size.bound_mm)
    near = min(sizes, key=lambda size: inside[size.dimension], default=None)
    if near is not None and inside[near.dimension] < min(metal_chance, ON_PLAN_CHANCE):
        low, high = near.limits.low, near.limits.high
        return _of_size(near, Why.NEAR, low if near.expected_mm - low < high - near.expected_mm else high)
    if spares and plan_state(metal_chance) is not PlanState.ON_PLAN:
        return spares[0].reason(Why.SHORT)
    return None


def _of_size(size: FinishedSize, why: Why, bound_mm: float) -> Reason:
    beyond = mm(size.expected_mm - bound_mm, size.doubt_mm)
    return Reason(why, size.zone, size.dimension, beyond, mm(bound_mm))


def once_fixed(plan: Plan, workpiece: Workpiece, zone: str) -> Spare | None:
    """The spare of a zone whose end is behind it, cut or ground to a stated size: that of the size itself."""
    shaped = [stage for stage in plan.stages[zone] if reshapes(stage.step, zone)]
    if not shaped or fixed_free_mm(shaped[-1].step, shaped[-1].after) is None:
        return None
    free = shaped[-1].after.free
    limits = plan.recipe.drawing[zone].limits.get(free)
    if limits is None or workpiece.zones[zone].free != free:
        return None
    size = workpiece.size(zone, free)
    return Spare(zone, free, size.value - least_of(limits), size.doubt, least_of(limits))


def least_of(limits: Limits) -> float:
    """The least that limits allow: the size itself where no low limit is given."""
    return limits.low if limits.low > -inf else limits.nominal


def spare_of(zone: str, dimension: str, limits: Limits, form: Form, volume: Estimate) -> Spare | None:
    """What a solid has to spare in a dimension, by its volume's doubt; None where it has no such size."""
    try:
        reach = form.size_mm(dimension)
        slope = volume_slope(form, dimension)
    except FormError:
        return None
    least = least_of(limits)
    return Spare(zone, dimension, reach - least, volume.doubt / abs(slope) if slope else 0.0, least)


def expected_size(workpiece: Workpiece, zone: str, dimension: str) -> Estimate | None:
    """What a size is expected to be in a workpiece, or None when it cannot be told."""
    state = workpiece.zones[zone]
    if state.laid_on is not None or dimension not in (*state.shape.dimensions, MARK):
        return None
    try:
        return workpiece.size(zone, dimension)
    except LedgerError:
        return None
