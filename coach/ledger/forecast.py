"""Looking forward: the rest of the job as it is expected to go from what is believed now."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from typing import NamedTuple

from coach.ledger.belief import Change
from coach.ledger.course import Course, Outcome, asked_names, left_as_read, read_names
from coach.ledger.following import follow
from coach.ledger.heats import scaled, worked_to_the_end
from coach.ledger.nominal import Stage
from coach.ledger.plan import Plan
from coach.ledger.settling import worked_again_share
from coach.ledger.stepping import step_on
from coach.ledger.tightest import tightest
from coach.ledger.together import all_right
from coach.ledger.verdict import PlanState, Reason, SizeState, Why, plan_state, state_for_size
from coach.ledger.working import LedgerError, fixed_free_mm, reshapes
from coach.ledger.workpiece import SCALE, Estimate, Workpiece, size_name
from coach.ledger.zone_forecast import (
    FinishedSize,
    Spare,
    ZoneForecast,
    metal_of,
    once_fixed,
    once_read,
    spare_of,
    zone_forecast,
)
from coach.operations import operation
from coach.quantities import NOTHING, Figure, Kind, Words
from coach.recipe.model import Recipe, Step, spoken_of

#: Readings that make the fire take this many times the scale reckoned are named among the reasons
#: (judgement).
HUNGRY_FIRE = 1.3


class Forecast(NamedTuple):
    """The whole tool at the end of the job."""

    zones: Mapping[str, ZoneForecast]
    chance: float
    state: PlanState
    reason: Reason | Words  # why it stands so, or why the rest of the job cannot be reckoned
    after: Mapping[int, Workpiece]  # expected after each step still to be finished

    @property
    def trouble(self) -> Words:
        """Why the rest of the job cannot be reckoned; empty when it can."""
        return NOTHING if isinstance(self.reason, Reason) else self.reason

    def sizes(self, recipe: Recipe, measured: Collection[tuple[str, str]] = ()) -> tuple[FinishedSize, ...]:
        """Every size of the drawing, in its order; `measured` are those that were, by zone and dimension."""
        return tuple(
            size._replace(measured=(zone, size.dimension) in measured)
            for zone, drawn in recipe.drawing.items()
            if zone in self.zones
            for size in self.zones[zone].sizes
            if size.dimension in spoken_of(drawn.shape, drawn.limits)
        )

    def spares(self, recipe: Recipe) -> tuple[Spare, ...]:
        """Spare or shortage in every take-up dimension, in the drawing's order."""
        return tuple(
            spare for zone in recipe.drawing if zone in self.zones for spare in self.zones[zone].spares
        )


def forecast(plan: Plan, course: Course | None, now: Workpiece, next_step: int) -> Forecast:
    """Walk every step still to be done: first the rest of the course in hand, if there is one.

    Otherwise from step `next_step`, the first that is not begun, with the workpiece as it is `now` before it.
    """
    walk = _Walk(plan, now)
    try:
        if course is not None and course.is_begun:
            walk.finish(course)
            next_step = course.step.number + 1
        for step in plan.recipe.steps[next_step - 1 :]:
            walk.take(step)
        for zone, state in walk.workpiece.zones.items():
            if state.laid_on is None:
                walk.end(zone)
    except LedgerError as error:
        return Forecast(walk.found, 0.0, PlanState.OFF_PLAN, error.words, walk.after)
    chance = walk.chance()
    reason = walk.reason(on_plan=plan_state(chance) is PlanState.ON_PLAN)
    near = reason.why is Why.NEAR  # it seems to be inside
    called = state_for_size(chance, SizeState.GOOD) if near else plan_state(chance)
    return Forecast(walk.found, chance, called, reason, walk.after)


class _Walk:
    """The steps still to be done, one after another, with what is found of each zone at its end."""

    def __init__(self, plan: Plan, workpiece: Workpiece) -> None:
        self.plan = plan
        self.workpiece = workpiece
        self.found: dict[str, ZoneForecast] = {}
        self.after: dict[int, Workpiece] = {}
        self._before_fixing: dict[str, dict[str, Figure]] = {}  # of a zone, by dimension
        self._inferred: frozenset[str] = frozenset()  # sizes that the step in hand works to and nobody read
        self._shaped: set[str] = set()  # zones whose section a step still to be finished decides

    def take(self, step: Step) -> None:
        """Do a step that is not begun."""
        self._begin(step)
        self.workpiece = step_on(self.plan, self.workpiece, step)
        self._done(step)

    def finish(self, course: Course) -> None:
        """Finish the step that is going on."""
        step = course.step
        self.workpiece = course.start
        # What is left of a zone that was measured in the step in hand is known from that.
        self._begin(step, frozenset(o.mark.reading.zone for o in course.outcomes if not o.questioned))
        if self.workpiece is not course.start:  # what was noted hangs together with all that was read since
            course = follow(
                self.plan, self.workpiece, step, course.marks, finished=False, doubted=course.doubted
            )
        self._inferred = asked_names(self.plan, step) - read_names(self.plan, course)
        self.workpiece = finished_course(self.plan, course)
        self._done(step)
        stages = self.plan.by_step[step.number]
        for zone, dimension in left_as_read(self.plan, course):
            if zone in stages and dimension == stages[zone].after.free:
                self._shaped.discard(zone)

    def end(self, zone: str) -> None:
        """Hold a zone against its drawing, as it is now.

        What decides whether its metal suffices is kept in the belief beside what it will become: its volume;
        for an end that is cut or ground already, the size it was brought to; for a zone that was measured
        since the last step that shapes it, the size that was read.
        """
        now = self.workpiece
        fixed = self._before_fixing.get(zone) or once_fixed(self.plan, now, zone)
        read = {} if fixed else once_read(self.plan, now, zone)
        self.found[zone] = zone_forecast(
            self.plan, now, zone, fixed, read, self._inferred, in_hand=zone in self._shaped
        )
        fixed = once_fixed(self.plan, now, zone) or (read if zone not in self._shaped else {})
        if _end_name(zone) not in now.belief:
            kept = now.size(zone, next(iter(fixed))) if fixed else metal_of(self.plan, now, zone)
            self._keep(zone, kept)

    def _begin(self, step: Step, measured: frozenset[str] = frozenset()) -> None:
        if step.lays is not None:  # laid steel is finished, as its own drawing has it, when it goes on
            self.end(step.lays)
        for stage in self.plan.by_step[step.number].values():
            if reshapes(step, stage.zone):
                self._forget(stage.zone)
                if stage.zone not in measured:
                    self._note_fixing(stage)

    def _done(self, step: Step) -> None:
        self._shaped.update(zone for zone in step.zones if reshapes(step, zone))
        self.after[step.number] = self.workpiece

    def _forget(self, zone: str) -> None:
        """Any later shaping makes the end of a zone the free dimension's own business again."""
        if self._before_fixing.pop(zone, None) is not None:
            belief = self.workpiece.belief.predict({}, dropped=[_end_name(zone)])
            self.workpiece = self.workpiece._replace(belief=belief)

    def _note_fixing(self, stage: Stage) -> None:
        """Keep what a zone has to spare before metal is taken away to reach a stated size.

        Afterwards the size is what was aimed at, however much metal there was; so whether there is enough
        shows only before. Where the section is behind it too, no work will put that right before the stone:
        then the size itself is what counts, with all its doubt.
        """
        zone, free = stage.zone, stage.after.free
        limits = self.plan.recipe.drawing[zone].limits.get(free)
        if limits is None or fixed_free_mm(stage.step, stage.after) is None:
            return
        form, decides = self.workpiece.form(zone), self.workpiece.volume(zone)
        spare = spare_of(free, limits, form, decides)
        if spare is None:
            return
        if zone not in self._shaped:
            decides = self.workpiece.size(zone, free, form)
            spare = spare._replace(doubt=decides.doubt)
        self._before_fixing[zone] = {free: spare}
        self._keep(zone, decides)

    def _keep(self, zone: str, decides: Estimate) -> None:
        change = Change(decides.value, decides.slopes)
        belief = self.workpiece.belief.predict({_end_name(zone): change})
        self.workpiece = self.workpiece._replace(belief=belief)

    def chance(self) -> float:
        """The chance of every zone at once: their metal hangs together, by marks, bar, fire and gauges."""
        belief = self.workpiece.belief
        ends = [_end_name(zone) for zone in self.found]
        doubts = [belief.doubt(end) for end in ends]
        correlations = [
            [belief.covariance(a, b) / (u * v) if u * v else 0.0 for b, v in zip(ends, doubts, strict=True)]
            for a, u in zip(ends, doubts, strict=True)
        ]
        chance = all_right([zone.enough_chance for zone in self.found.values()], correlations)
        for zone in self.found.values():
            if zone.enough_chance:
                chance *= zone.chance / zone.enough_chance
        return chance

    def reason(self, *, on_plan: bool) -> Reason:
        """What the worst zone lacks, or where the least is to spare."""
        worst = min(self.found.values(), key=lambda zone: zone.chance)
        wrong = worst.reason or worst.nearest
        if wrong is not None and not on_plan:
            factor, doubt = self.workpiece.scale_factor(), self.workpiece.belief.doubt(SCALE)
            fire = Figure(factor, Kind.FACTOR, doubt) if factor >= HUNGRY_FIRE else None
            return wrong._replace(fire=fire)
        spares = [spare for zone in self.found.values() for spare in zone.spares]
        return tightest(spares, self.plan.recipe.drawing)


def _end_name(zone: str) -> str:
    return f"{zone} at its end"


def finished_course(plan: Plan, course: Course) -> Workpiece:
    """The step that is going on, worked to its end: what is not there yet comes to its target."""
    step, now = course.step, course.now
    if operation(step.operation).FIXES:
        return _fixing_finished(plan, course)
    left = max(0, step.heats - course.heats)
    asked = asked_names(plan, step)
    settled = {size_name(*size) for size in left_as_read(plan, course)}
    open_zones = {name.rsplit(".", 1)[0] for name in asked - settled}
    # A zone whose every size is good is not hammered on, however many heats were planned.
    under = [name for name in asked if name.rsplit(".", 1)[0] in open_zones]
    workpiece = worked_to_the_end(plan, now, step, under, read_names(plan, course), left)
    return scaled(plan, workpiece, step, course.scaling, float(left))


def _fixing_finished(plan: Plan, course: Course) -> Workpiece:
    """A cut or a grind worked to its end: where a size was read as more to go, the rest of it comes off."""
    step = course.step
    ended = follow(plan, course.start, step, course.marks, finished=True, doubted=course.doubted)
    left = max(0, step.heats - course.heats)
    now = scaled(plan, ended.now, step, course.scaling, float(left))
    judged = {o.mark.reading.dimension for o in ended.outcomes if o.judged and not o.questioned}
    latest = [ended.last(zone, dimension) for zone in step.zones for dimension in judged]
    share = max((_more_to_come_off(plan, step, outcome) for outcome in latest if outcome), default=0.0)
    if not share:
        return now
    more = step_on(plan, now, step, heats=0.0)
    return more._replace(belief=now.belief.mixed(more.belief, share))


def _more_to_come_off(plan: Plan, step: Step, outcome: Outcome) -> float:
    """How surely a size that was read is cut or ground further."""
    zone, dimension = outcome.mark.reading.zone, outcome.mark.reading.dimension
    stage, limits, surprise = plan.by_step[step.number].get(zone), outcome.limits, outcome.surprise
    if stage is None or limits is None or surprise is None or dimension not in step.targets:
        return 0.0
    return worked_again_share(stage, dimension, surprise.cold.size_mm, limits, surprise.cold.doubt_mm)
