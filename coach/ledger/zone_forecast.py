"""One zone at the end of its way, held against its drawing: sizes, spare metal, chance and reason."""

from __future__ import annotations

from collections.abc import Sequence
from math import inf
from typing import NamedTuple

from coach.forms import Form, FormError
from coach.ledger.plan import Plan
from coach.ledger.verdict import PlanState, Reason, SizeState, Why, at_most, conformance, plan_state
from coach.ledger.working import LedgerError, fixed_free_mm, reshapes
from coach.ledger.workpiece import Estimate, Workpiece, volume_slope
from coach.operations.measures import MARK
from coach.quantities import COVERAGE, Limits, mm


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
    plan: Plan, workpiece: Workpiece, zone: str, before_fixing: Spare | None = None
) -> ZoneForecast:
    """One zone against its drawing, as it is in a workpiece at the end of its way.

    `before_fixing` is what it had to spare before metal was taken away to reach a stated size, if it ends so.
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
    off = [one for one in sizes if one.state is not SizeState.GOOD]
    stuck = [one for one in off if one.dimension not in drawing.take_up]
    chance = metal_chance * _chance_of(workpiece, stuck, {one.dimension for one in off})
    return ZoneForecast(
        zone,
        tuple(sizes),
        tuple(spares),
        chance,
        metal_chance,
        volume.value,
        volume.doubt,
        least,
        _reason(metal_chance, spares, stuck),
    )


def _chance_of(workpiece: Workpiece, stuck: Sequence[FinishedSize], out: set[str]) -> float:
    """The chance that sizes which nothing brings back are within their limits all the same."""
    chance = 1.0
    for size in stuck:
        leader = workpiece.zones[size.zone].leader(size.dimension)
        if leader == size.dimension or leader not in out:  # one doubt is not counted twice
            chance *= conformance(size.expected_mm, max(size.doubt_mm, 1e-9), size.limits)
    return chance


def _reason(metal_chance: float, spares: Sequence[Spare], stuck: Sequence[FinishedSize]) -> Reason | None:
    """A size that stays wrong before metal that may not be enough."""
    if stuck:
        size = stuck[-1]
        why = Why.UNDER if size.state is SizeState.UNDER else Why.OVER
        beyond = mm(size.expected_mm - size.bound_mm, size.doubt_mm)
        return Reason(why, size.zone, size.dimension, beyond, mm(size.bound_mm))
    if spares and plan_state(metal_chance) is not PlanState.ON_PLAN:
        return spares[0].reason(Why.SHORT)
    return None


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
