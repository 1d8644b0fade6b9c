"""Looking forward: the rest of the job as it is expected to go from what is believed now."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from math import inf
from typing import NamedTuple

from coach.forms import Form, FormError, said
from coach.ledger.belief import Change
from coach.ledger.course import Course, follow
from coach.ledger.finishing import finished_course
from coach.ledger.plan import Plan
from coach.ledger.stepping import step_on
from coach.ledger.together import all_right
from coach.ledger.verdict import GUARD_FACTOR, PlanState, SizeState, at_most, conformance, plan_state
from coach.ledger.working import LedgerError, fixed_free_mm, reshapes
from coach.ledger.workpiece import Estimate, Workpiece, volume_slope
from coach.quantities import Limits, Shown, write_length
from coach.recipe.model import Step

_METRIC = Shown()


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


class Spare(NamedTuple):
    """Metal above the least that the drawing allows, told in a take-up dimension; negative when short."""

    zone: str
    dimension: str
    spare_mm: float
    doubt_mm: float

    @property
    def at_least_mm(self) -> float:
        """The spare that is there with 95 % confidence."""
        return self.spare_mm - GUARD_FACTOR * self.doubt_mm


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
    reason: str  # "" when nothing is wrong


class Forecast(NamedTuple):
    """The whole tool at the end of the job."""

    zones: Mapping[str, ZoneForecast]
    chance: float
    state: PlanState
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
    before_fixing: dict[str, Spare] = {}
    shaped: set[str] = set()  # zones whose section a step still to be finished decides
    workpiece = now
    number = next_step
    try:
        if course is not None:
            step = course.step
            start = _lay(plan, course.start, step.lays, found, before_fixing, shown)
            start = _note_fixing(plan, start, step, before_fixing, shaped, _read_zones(course))
            if start is not course.start:  # what was noted hangs together with all that was read since
                course = follow(plan, start, step, course.marks, finished=False)
            workpiece = finished_course(plan, course)
            shaped.update(zone for zone in step.zones if reshapes(step, zone))
            after[step.number] = workpiece
            number = step.number + 1
        for step in plan.recipe.steps[number - 1 :]:
            workpiece = _lay(plan, workpiece, step.lays, found, before_fixing, shown)
            workpiece = _note_fixing(plan, workpiece, step, before_fixing, shaped)
            workpiece = step_on(plan, workpiece, step)
            shaped.update(zone for zone in step.zones if reshapes(step, zone))
            after[step.number] = workpiece
        for zone, state in workpiece.zones.items():
            if state.laid_on is None:
                found[zone] = zone_forecast(plan, workpiece, zone, shown, before_fixing.get(zone))
                workpiece = _kept(plan, workpiece, zone)
    except LedgerError as error:
        return Forecast(found, 0.0, PlanState.OFF_PLAN, str(error), after, str(error))
    return _whole(found, after, workpiece, shown)


def _end_name(zone: str) -> str:
    return f"{zone} at its end"


def _kept(plan: Plan, workpiece: Workpiece, zone: str) -> Workpiece:
    """What decides whether a zone's metal suffices, kept in the belief beside what it will become.

    It is the zone's volume; for an end that is cut or ground already, the size it was brought to.
    """
    if _end_name(zone) in workpiece.belief:
        return workpiece
    fixed = _once_fixed(plan, workpiece, zone)
    decides = workpiece.volume(zone) if fixed is None else workpiece.size(zone, fixed.dimension)
    change = Change(decides.value, decides.slopes)
    return workpiece._replace(belief=workpiece.belief.predict({_end_name(zone): change}))


def _lay(
    plan: Plan,
    workpiece: Workpiece,
    zone: str | None,
    found: dict[str, ZoneForecast],
    before_fixing: Mapping[str, Spare],
    shown: Shown,
) -> Workpiece:
    """Laid steel is finished, as its own drawing has it, when it goes on."""
    if zone is None:
        return workpiece
    found[zone] = zone_forecast(plan, workpiece, zone, shown, before_fixing.get(zone))
    return _kept(plan, workpiece, zone)


def _read_zones(course: Course) -> frozenset[str]:
    """The zones that were measured in the step in hand: what is left of them is known from that."""
    return frozenset(o.mark.reading.zone for o in course.outcomes if not o.questioned)


def _note_fixing(
    plan: Plan,
    workpiece: Workpiece,
    step: Step,
    before_fixing: dict[str, Spare],
    shaped: Collection[str],
    measured: frozenset[str] = frozenset(),
) -> Workpiece:
    """Keep what each zone has to spare before metal is taken away to reach a stated size.

    Afterwards the size is what was aimed at, however much metal there was; so whether there is enough shows
    only before. Any later shaping makes it the free dimension's own business again. Where the section is
    behind it too, no work will put that right before the stone: then the size itself is what counts, with
    all its doubt.
    """
    for stage in plan.by_step[step.number].values():
        zone = stage.zone
        if not reshapes(step, zone):
            continue
        if before_fixing.pop(zone, None) is not None:
            belief = workpiece.belief.predict({}, dropped=[_end_name(zone)])
            workpiece = workpiece._replace(belief=belief)
        free = stage.after.free
        limits = plan.recipe.drawing[zone].limits.get(free)
        if zone in measured or limits is None or fixed_free_mm(step, stage.after) is None:
            continue
        form = workpiece.form(zone)
        if free in form.DIMENSIONS:
            decides = workpiece.volume(zone)
            spare = _spare(zone, free, limits, form, decides)
            if spare is not None:
                if zone not in shaped:
                    decides = workpiece.size(zone, free, form)
                    spare = spare._replace(doubt_mm=decides.doubt)
                before_fixing[zone] = spare
                change = Change(decides.value, decides.slopes)
                belief = workpiece.belief.predict({_end_name(zone): change})
                workpiece = workpiece._replace(belief=belief)
    return workpiece


def zone_forecast(
    plan: Plan,
    workpiece: Workpiece,
    zone: str,
    shown: Shown = _METRIC,
    before_fixing: Spare | None = None,
) -> ZoneForecast:
    """One zone against its drawing, as it is in a workpiece at the end of its way.

    Args:
        plan: the plan.
        workpiece: the zone at its end.
        zone: its name.
        shown: the units that the reason is told in.
        before_fixing: what it had to spare before metal was taken away to reach a stated size, if that is
            how it ends.
    """
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
    if before_fixing is None:
        before_fixing = _once_fixed(plan, workpiece, zone)
    if before_fixing is not None:
        chance = 1.0 - at_most(0.0, before_fixing.spare_mm, before_fixing.doubt_mm)
        spares = tuple(before_fixing if one.dimension == before_fixing.dimension else one for one in spares)
    metal_chance = chance
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
    out = {size.dimension for size in sizes if size.state is not SizeState.GOOD}
    for size in sizes:
        if size.state is SizeState.GOOD or size.dimension in drawing.take_up:
            continue
        leader = workpiece.zones[zone].leader(size.dimension)
        if leader == size.dimension or leader not in out:  # one doubt is not counted twice
            chance *= conformance(size.expected_mm, max(size.doubt_mm, 1e-9), size.limits)
        bound, way = (
            (size.limits.low, "under") if size.state is SizeState.UNDER else (size.limits.high, "over")
        )
        off = abs(size.expected_mm - bound)
        by = write_length(off, shown) if off >= _A_HAIR_MM else "a hair"
        reason = (
            f"{zone}: the {said(size.dimension)} stays at {write_length(size.expected_mm, shown)}, "
            f"{by} {way} the {write_length(bound, shown)} the drawing allows, and no step ahead puts it right"
        )
    return ZoneForecast(
        zone, tuple(sizes), spares, chance, metal_chance, volume.value, volume.doubt, least, reason
    )


def _once_fixed(plan: Plan, workpiece: Workpiece, zone: str) -> Spare | None:
    """The spare of a zone whose end is behind it, cut or ground to a stated size: that of the size itself."""
    shaped = [stage for stage in plan.stages[zone] if reshapes(stage.step, zone)]
    if not shaped or fixed_free_mm(shaped[-1].step, shaped[-1].after) is None:
        return None
    free = shaped[-1].after.free
    limits = plan.recipe.drawing[zone].limits.get(free)
    if limits is None or workpiece.zones[zone].free != free:
        return None
    size = workpiece.size(zone, free)
    return Spare(zone, free, size.value - least_of(limits), size.doubt)


def least_of(limits: Limits) -> float:
    """The least that limits allow: the size itself where no low limit is given."""
    return limits.low if limits.low > -inf else limits.nominal


def _spare(zone: str, dimension: str, limits: Limits, form: Form, volume: Estimate) -> Spare | None:
    try:
        reach = form.size_mm(dimension)
        slope = volume_slope(form, dimension)
    except FormError:
        return None
    return Spare(zone, dimension, reach - least_of(limits), volume.doubt / abs(slope) if slope else 0.0)


#: Nearer than this to a limit there is no figure worth telling.
_A_HAIR_MM = 0.05
#: Readings that make the fire take this many times the scale reckoned are named among the reasons.
_HUNGRY_FIRE = 1.3


def _whole(
    found: Mapping[str, ZoneForecast], after: Mapping[int, Workpiece], workpiece: Workpiece, shown: Shown
) -> Forecast:
    chance = _all_zones(found, workpiece)
    scale_factor = workpiece.scale_factor()
    state = plan_state(chance)
    worst = min(found.values(), key=lambda zone: zone.chance)
    if state is not PlanState.ON_PLAN and worst.reason:
        reason = worst.reason[0].upper() + worst.reason[1:] + "."
        if scale_factor >= _HUNGRY_FIRE:
            reason += f" By the readings the fire takes {scale_factor:.1f} times the scale reckoned."
    else:
        reason = _good_reason(found, shown)
    return Forecast(found, chance, state, reason, after)


def _all_zones(found: Mapping[str, ZoneForecast], workpiece: Workpiece) -> float:
    """The chance of every zone at once: their metal hangs together, by marks, bar, fire and gauges."""
    belief = workpiece.belief
    ends = [_end_name(zone) for zone in found]
    doubts = [belief.doubt(end) for end in ends]
    correlations = [
        [belief.covariance(a, b) / (u * v) if u * v else 0.0 for b, v in zip(ends, doubts, strict=True)]
        for a, u in zip(ends, doubts, strict=True)
    ]
    chance = all_right([zone.metal_chance for zone in found.values()], correlations)
    for zone in found.values():
        if zone.metal_chance:
            chance *= zone.chance / zone.metal_chance
    return chance


def _good_reason(found: Mapping[str, ZoneForecast], shown: Shown) -> str:
    spares = [zone.spares[0] for zone in found.values() if zone.spares]
    if not spares:
        return "The metal is enough for every zone."
    tightest = min(spares, key=lambda spare: spare.spare_mm / max(spare.doubt_mm, 1e-9))
    spare = write_length(tightest.spare_mm, shown)
    if tightest.spare_mm < 0.0:
        # The chance goes by the metal, the spare by the section as it is: within its limits, but full.
        return (
            f"The metal is enough, but the {said(tightest.dimension)} of {tightest.zone} comes out "
            f"{write_length(-tightest.spare_mm, shown)} short of its least unless the section is worked "
            f"nearer to the size drawn."
        )
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
