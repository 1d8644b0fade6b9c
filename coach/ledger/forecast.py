"""Looking forward: the rest of the job as it is expected to go from what is believed now."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from types import MappingProxyType
from typing import NamedTuple

from coach.ledger.belief import Change
from coach.ledger.course import (
    Course,
    Mark,
    asked_names,
    believed_name,
    left_as_read,
    to_settle,
)
from coach.ledger.finishing import as_read, finished_course
from coach.ledger.following import follow
from coach.ledger.hand import NOTHING_LANDED, Landed
from coach.ledger.margins import Margin, as_fixed, as_laid, margins_of, noted_before_fixing
from coach.ledger.nominal import Stage
from coach.ledger.plan import Plan
from coach.ledger.stepping import step_on
from coach.ledger.tightest import tightest
from coach.ledger.together import all_right
from coach.ledger.verdict import (
    ON_PLAN_CHANCE,
    PlanState,
    Reason,
    SizeState,
    Why,
    plan_state,
    state_for_size,
)
from coach.ledger.will_pass import HandWork, WillPass, hand_work, will_pass
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
from coach.quantities import NOTHING, Figure, Kind, Words
from coach.recipe.model import Recipe, Step, ZoneDrawing, spoken_of

NOTHING_WAITS: Mapping[int, Sequence[Mark]] = MappingProxyType({})
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
    will_pass: WillPass | None = None  # None where the rest cannot be reckoned
    metal: float = 0.0  # the chance that the metal is enough for every zone, whatever their sizes
    landed: Mapping[str, Landed] = NOTHING_LANDED  # where the hand stopped, by the belief's names

    def besides(
        self, known: Mapping[tuple[str, str], SizeState], drawing: Mapping[str, ZoneDrawing]
    ) -> Forecast:
        """The same of all else, where some sizes, by zone and dimension, are known as they stay."""
        reason = self.reason
        if not known or not isinstance(reason, Reason):
            return self
        chance = self.chance_besides(known)
        stays = known.get((reason.zone, reason.dimension))
        is_out = reason.why in (Why.UNDER, Why.OVER)
        # What takes up the metal is reckoned with it still: then all else turns on that size too.
        of_metal = reason.zone in self.zones and any(
            spare.dimension == reason.dimension for spare in self.zones[reason.zone].spares
        )
        is_near = reason.why is Why.NEAR and (not of_metal or plan_state(chance) is PlanState.ON_PLAN)
        contradicts = stays is not None and (is_near or (is_out and stays is SizeState.GOOD))
        if contradicts or (reason.why is Why.SHORT and plan_state(chance) is PlanState.ON_PLAN):
            reason = self._reason_besides(known, drawing, chance)._replace(fire=reason.fire)
        return self._replace(chance=chance, state=_called(chance, reason), reason=reason)

    def _reason_besides(
        self, known: Collection[tuple[str, str]], drawing: Mapping[str, ZoneDrawing], chance: float
    ) -> Reason:
        """What all else turns on: what the zone lacks that is the least sure without those sizes."""
        zones = self.zones.values()
        if plan_state(chance) is not PlanState.ON_PLAN:
            worst = min(zones, key=lambda zone: zone.enough_chance * zone.inside_besides(known))
            if (reason := worst.reason_besides(known, drawing[worst.zone])) is not None:
                return reason
        return tightest([one for zone in zones for one in zone.spares], drawing)

    def chance_besides(self, known: Collection[tuple[str, str]]) -> float:
        """The chance of all but those sizes."""
        chance = self.metal
        for zone in self.zones.values():
            chance *= zone.inside_besides(known)
        return chance

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


def _called(chance: float, reason: Reason) -> PlanState:
    near = reason.why is Why.NEAR  # it seems to be inside
    return state_for_size(chance, SizeState.GOOD) if near else plan_state(chance)


def forecast(
    plan: Plan,
    course: Course | None,
    now: Workpiece,
    next_step: int,
    waiting: Mapping[int, Sequence[Mark]] = NOTHING_WAITS,
    doubted: frozenset[int] = frozenset(),
) -> Forecast:
    """Walk every step still to be done: first the rest of the course in hand, if there is one.

    Otherwise from step `next_step`, the first that is not begun, with the workpiece as it is `now` before it.
    What is `waiting`, by the numbers of steps ahead, was entered on pieces that wait for their turn.
    """
    walk = _Walk(plan, now)
    try:
        if course is not None and course.is_begun:
            walk.finish(course)
            next_step = course.step.number + 1
        for step in plan.recipe.steps[next_step - 1 :]:
            if step.number in waiting:
                walk.go_on(step, waiting[step.number], doubted)
            else:
                walk.take(step)
        for zone in walk.workpiece.zones:
            walk.end(zone)
    except LedgerError as error:
        return Forecast(walk.found, 0.0, PlanState.OFF_PLAN, error.words, walk.after)
    found = Forecast(walk.found, 0.0, PlanState.OFF_PLAN, NOTHING, walk.after, walk.will_pass(), walk.metal())
    found = found._replace(landed=walk.workpiece.hand.landed)
    chance = found.chance_besides(())
    reason = walk.reason(on_plan=plan_state(chance) is PlanState.ON_PLAN)
    return found._replace(chance=chance, state=_called(chance, reason), reason=reason)


class _Walk:
    """The steps still to be done, one after another, with what is found of each zone at its end."""

    def __init__(self, plan: Plan, workpiece: Workpiece) -> None:
        self.plan = plan
        self.workpiece = workpiece
        self.found: dict[str, ZoneForecast] = {}
        self.after: dict[int, Workpiece] = {}
        self._before_fixing: dict[str, dict[str, Figure]] = {}  # of a zone, by dimension
        self._inferred: dict[str, float] = {}  # how surely sizes that the step in hand works to go by others
        self._shaped: dict[str, float] = {}  # how surely a step still to be finished decides a zone's section
        self._by_hand: dict[str, HandWork] = {}  # the sizes that steps still to be finished work to

    def take(self, step: Step) -> None:
        """Do a step that is not begun."""
        self._begin(step)
        self.workpiece = step_on(self.plan, self.workpiece, step)
        self._done(step)
        self._worked(step)

    def go_on(self, step: Step, marks: Sequence[Mark], doubted: frozenset[int]) -> None:
        """Finish a step on a piece that waits for its turn, by what was entered of it."""
        inferred = self._inferred
        self.finish(follow(self.plan, self.workpiece, step, marks, finished=False, doubted=doubted))
        self._inferred = {**inferred, **self._inferred}

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
        self._inferred = dict.fromkeys(asked_names(self.plan, step) - _as_it_is(self.plan, course), 1.0)
        left, stays_so = left_as_read(self.plan, course), as_read(self.plan, course)
        self.workpiece = finished_course(self.plan, course, stays_so)
        self._done(step)
        shares, stays = stays_so
        # What nobody is asked to read, and a length left as read has settled, is told as once it is done.
        for name in self._inferred.keys() - to_settle(self.plan, course):
            self._inferred[name] = 1.0 - stays.get(name.rsplit(".", 1)[0], 0.0)
        self._worked(step)
        for name, share in shares.items():
            if name in self._by_hand:
                self._by_hand[name] = self._by_hand[name]._replace(share=1.0 - share)
        for zone, dimension in left:
            if (name := size_name(zone, dimension)) not in shares:
                self._by_hand.pop(name, None)
        for zone, share in stays.items():
            self._shaped[zone] = 1.0 - share

    def end(self, zone: str) -> None:
        """Hold a zone against its drawing, as it is now.

        What decides whether its metal suffices is kept in the belief beside what it will become: its volume;
        for an end that is cut or ground already, the size it was brought to; for a zone that was measured
        since the last step that shapes it, the size that was read. Steel that was laid on stays what it was
        when it went on.
        """
        if self.plan.recipe.piece_of(zone).given_up:
            return  # nothing of the drawing is asked of it
        is_laid = not self.workpiece.zones[zone].has_form
        if is_laid:
            went_on = None if zone in self.found else as_laid(self.workpiece, zone)
            if went_on is None:
                return
            self.workpiece = went_on
        now = self.workpiece
        fixed = self._before_fixing.get(zone) or once_fixed(self.plan, now, zone)
        read = {} if fixed else once_read(self.plan, now, zone)
        self.found[zone] = zone_forecast(
            self.plan,
            now,
            zone,
            fixed,
            read,
            self._inferred,
            in_hand=self._shaped.get(zone, 0.0),
            is_laid=is_laid,
        )
        fixed = once_fixed(self.plan, now, zone) or (read if self._shaped.get(zone, 0.0) < 0.5 else {})
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
        self._shaped.update((zone, 1.0) for zone in step.zones if reshapes(step, zone))
        self.after[step.number] = self.workpiece

    def _worked(self, step: Step) -> None:
        for stage in self.plan.by_step[step.number].values():
            if stage.zone in step.zones:
                self._by_hand.update(hand_work(self.workpiece, stage))

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
        limits, aim_mm = (
            self.plan.recipe.drawing[zone].limits.get(free),
            fixed_free_mm(stage.step, stage.after),
        )
        if limits is None or aim_mm is None:
            return
        form, decides = self.workpiece.form(zone), self.workpiece.volume(zone)
        spare = spare_of(free, limits, form, decides)
        if spare is None:
            return
        if self._shaped.get(zone, 0.0) < 0.5:
            decides = self.workpiece.size(zone, free, form)
            spare = spare._replace(doubt=decides.doubt)
        self._before_fixing[zone] = {free: spare}
        self._keep(zone, decides)
        self.workpiece = noted_before_fixing(self.workpiece, stage, aim_mm)

    def _keep(self, zone: str, decides: Estimate) -> None:
        change = Change(decides.value, decides.slopes)
        belief = self.workpiece.belief.predict({_end_name(zone): change})
        self.workpiece = self.workpiece._replace(belief=belief)

    def metal(self) -> float:
        """That it is enough for every zone at once: it hangs together, by marks, bar, fire and gauges."""
        belief = self.workpiece.belief
        ends = [_end_name(zone) for zone in self.found]
        doubts = [belief.doubt(end) for end in ends]
        correlations = [
            [belief.covariance(a, b) / (u * v) if u * v else 0.0 for b, v in zip(ends, doubts, strict=True)]
            for a, u in zip(ends, doubts, strict=True)
        ]
        return all_right([zone.enough_chance for zone in self.found.values()], correlations)

    def will_pass(self) -> WillPass:
        """The chance that every size of the drawing is inside at the end, the work ahead included."""
        now = self.workpiece
        margins: list[Margin] = []
        for zone in (one for one in now.zones if not self.plan.recipe.piece_of(one).given_up):
            fixed = self._before_fixing.get(zone, {})
            for one in margins_of(self.plan, now, zone):
                margins += as_fixed(now, one) if one.dimension in fixed else (one,)
        return will_pass(now.belief, margins, self._by_hand, now.hand.landed)

    def reason(self, *, on_plan: bool) -> Reason:
        """What the worst zone lacks, or where the least is to spare."""
        worst = min(self.found.values(), key=lambda zone: zone.chance)
        wrong = worst.reason or worst.nearest
        if wrong is not None and not on_plan:
            factor, doubt = self.workpiece.scale_factor(), self.workpiece.belief.doubt(SCALE)
            fire = Figure(factor, Kind.FACTOR, doubt) if factor >= HUNGRY_FIRE else None
            return wrong._replace(fire=fire, of_several=worst.chance >= ON_PLAN_CHANCE)
        spares = [spare for zone in self.found.values() for spare in zone.spares]
        return tightest(spares, self.plan.recipe.drawing)


def _as_it_is(plan: Plan, course: Course) -> set[str]:
    """The belief's names for the sizes that were read in a step and that no heat has worked since."""
    readings = (one.mark.reading for one in course.outcomes if one.counts)
    return {believed_name(plan, course.step, reading) for reading in readings}


def _end_name(zone: str) -> str:
    return f"{zone} at its end"
