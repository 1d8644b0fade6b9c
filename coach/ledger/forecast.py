"""Looking forward: the rest of the job as it is expected to go from what is believed now."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from math import inf

from coach.forms import Form, FormError, said
from coach.ledger.belief import Change
from coach.ledger.course import Course, asked_names, believed_name
from coach.ledger.plan import Plan
from coach.ledger.stepping import is_past, reset, scaled, scatter_mm, step_on
from coach.ledger.verdict import GUARD_FACTOR, Standing, at_most, conformance, standing
from coach.ledger.working import LedgerError
from coach.ledger.workpiece import Estimate, Workpiece, volume_slope
from coach.quantities import Limits, Shown, write_length

_METRIC = Shown()


@dataclass(frozen=True, slots=True)
class FinishedSize:
    """One size of the drawing with what it is now expected to be."""

    zone: str
    dimension: str
    limits: Limits
    expected_mm: float
    doubt_mm: float

    @property
    def state(self) -> str:
        """good, under or over, by the expected size alone."""
        if self.expected_mm < self.limits.low:
            return "under"
        return "over" if self.expected_mm > self.limits.high else "good"


@dataclass(frozen=True, slots=True)
class Spare:
    """Metal above the least that the drawing allows, told in a take-up dimension; negative when short."""

    zone: str
    dimension: str
    spare_mm: float
    doubt_mm: float

    @property
    def at_least_mm(self) -> float:
        """The spare that is there with 95 % confidence."""
        return self.spare_mm - GUARD_FACTOR * self.doubt_mm


@dataclass(frozen=True, slots=True)
class ZoneForecast:
    """One zone at the end of the job."""

    zone: str
    sizes: tuple[FinishedSize, ...]
    spares: tuple[Spare, ...]
    chance: float  # of making the drawing
    volume_mm3: float
    volume_doubt_mm3: float
    least_mm3: float
    reason: str  # "" when nothing is wrong


@dataclass(frozen=True, slots=True)
class Forecast:
    """The whole tool at the end of the job."""

    zones: Mapping[str, ZoneForecast]
    chance: float
    standing: Standing
    reason: str
    after: Mapping[int, Workpiece]  # expected after each step still to be finished
    trouble: str = ""  # why the rest of the job cannot be reckoned, "" when it can


def forecast(
    plan: Plan, course: Course | None, now: Workpiece, next_step: int, shown: Shown = _METRIC
) -> Forecast:
    """Walk every step still to be done.

    Args:
        plan: the plan.
        course: the step that is going on, or None between steps.
        now: the workpiece before step `next_step` (ignored when a course is given).
        next_step: number of the first step not begun.
        shown: the units that the reasons are told in.
    """
    after: dict[int, Workpiece] = {}
    found: dict[str, ZoneForecast] = {}
    workpiece = now
    number = next_step
    try:
        if course is not None:
            workpiece = finished_course(plan, course)
            after[course.step.number] = workpiece
            _lay(plan, course.start, course.step.lays, found, shown)
            number = course.step.number + 1
        for step in plan.recipe.steps[number - 1 :]:
            _lay(plan, workpiece, step.lays, found, shown)
            workpiece = step_on(plan, workpiece, step)
            after[step.number] = workpiece
        for zone, state in workpiece.zones.items():
            if state.laid_on is None:
                found[zone] = zone_forecast(plan, workpiece, zone, shown)
    except LedgerError as error:
        return Forecast(found, 0.0, Standing.OFF_PLAN, str(error), after, str(error))
    return _whole(found, after, shown)


def _lay(
    plan: Plan, workpiece: Workpiece, zone: str | None, found: dict[str, ZoneForecast], shown: Shown
) -> None:
    """Laid steel is finished, as its own drawing has it, when it goes on."""
    if zone is not None:
        found[zone] = zone_forecast(plan, workpiece, zone, shown)


def finished_course(plan: Plan, course: Course) -> Workpiece:
    """The step that is going on, worked to its end: what is not there yet comes to its target."""
    step, now = course.step, course.now
    read = {believed_name(plan, step, o.mark.reading) for o in course.outcomes if not o.questioned}
    changes = {}
    for name in asked_names(plan, step):
        zone, dimension = name.rsplit(".", 1)
        stage = plan.by_step[step.number][zone]
        limits = step.targets[dimension]
        size = now.belief.mean(name)
        there = limits.contains(size) or is_past(size, limits.nominal, grows=dimension in stage.grows)
        if name in read and there:
            continue
        if name not in read and is_past(size, limits.nominal, grows=dimension in stage.grows):
            continue
        changes[name] = Change(limits.nominal, {}, scatter_mm(limits, limits.nominal) ** 2)
    workpiece = reset(now, changes) if changes else now
    left = max(0, step.heats - course.heats)
    return scaled(plan, workpiece, step, course.start_forms, float(left)) if left else workpiece


def zone_forecast(plan: Plan, workpiece: Workpiece, zone: str, shown: Shown = _METRIC) -> ZoneForecast:
    """One zone against its drawing, as it is in a workpiece at the end of its way."""
    drawing = plan.recipe.drawing[zone]
    form = workpiece.form(zone)
    volume = workpiece.volume(zone)
    sizes = []
    for dimension, limits in drawing.limits.items():
        if dimension in form.DIMENSIONS:
            estimate = workpiece.size(zone, dimension, form)
            sizes.append(FinishedSize(zone, dimension, limits, estimate.value, estimate.doubt))
    spares = tuple(
        spare
        for dimension in drawing.take_up
        if (spare := _spare(zone, dimension, drawing.limits[dimension], form, volume)) is not None
    )
    least = plan.least_mm3[zone]
    chance = 1.0 - at_most(least, volume.value, volume.doubt)
    reason = ""
    if chance < 0.95 and spares:
        spare = spares[0]
        amount = write_length(abs(spare.spare_mm), shown)
        how = "short of" if spare.spare_mm < 0.0 else "above"
        give = write_length(GUARD_FACTOR * spare.doubt_mm, shown)
        reason = (
            f"{zone}: the metal makes the {said(spare.dimension)} {amount} {how} the least the drawing "
            f"allows, give or take {give}"
        )
    for size in sizes:
        if size.state == "good" or size.dimension in drawing.take_up:
            continue
        chance *= conformance(size.expected_mm, max(size.doubt_mm, 1e-9), size.limits)
        bound, way = (size.limits.low, "under") if size.state == "under" else (size.limits.high, "over")
        reason = (
            f"{zone}: the {said(size.dimension)} stays at {write_length(size.expected_mm, shown)}, {way} the "
            f"{write_length(bound, shown)} the drawing allows, and no step ahead puts it right"
        )
    return ZoneForecast(zone, tuple(sizes), spares, chance, volume.value, volume.doubt, least, reason)


def _spare(zone: str, dimension: str, limits: Limits, form: Form, volume: Estimate) -> Spare | None:
    low = limits.low if limits.low > -inf else limits.nominal
    try:
        reach = form.size_mm(dimension)
        slope = volume_slope(form, dimension)
    except FormError:
        return None
    return Spare(zone, dimension, reach - low, volume.doubt / abs(slope) if slope else 0.0)


def _whole(found: Mapping[str, ZoneForecast], after: Mapping[int, Workpiece], shown: Shown) -> Forecast:
    chance = 1.0
    for zone in found.values():
        chance *= zone.chance
    said_standing = standing(chance)
    worst = min(found.values(), key=lambda zone: zone.chance)
    if said_standing is not Standing.ON_PLAN and worst.reason:
        reason = worst.reason[0].upper() + worst.reason[1:] + "."
    else:
        reason = _good_reason(found, shown)
    return Forecast(found, chance, said_standing, reason, after)


def _good_reason(found: Mapping[str, ZoneForecast], shown: Shown) -> str:
    spares = [zone.spares[0] for zone in found.values() if zone.spares]
    if not spares:
        return "The metal is enough for every zone."
    tightest = min(spares, key=lambda spare: spare.spare_mm / max(spare.doubt_mm, 1e-9))
    spare = write_length(tightest.spare_mm, shown)
    return (
        f"The metal is enough: the tightest is {tightest.zone}, with {spare} "
        f"to spare in its {said(tightest.dimension)} (at least {write_length(tightest.at_least_mm, shown)})."
    )


def expected_size(workpiece: Workpiece, zone: str, dimension: str) -> Estimate | None:
    """What a size is expected to be in a workpiece, or None when it cannot be told."""
    state = workpiece.zones[zone]
    if state.laid_on is not None or dimension not in state.shape.dimensions:
        return None
    try:
        return workpiece.size(zone, dimension)
    except LedgerError:
        return None


def extra_for_confidence_mm3(zone: ZoneForecast, confidence_factor: float = GUARD_FACTOR) -> float:
    """Metal to mark out beyond the plan so that the zone's volume suffices with that confidence."""
    need = confidence_factor * zone.volume_doubt_mm3 - (zone.volume_mm3 - zone.least_mm3)
    return max(0.0, need)
