"""What a job took: heats, hours and metal, planned beside taken; and how near the hand came to its aim."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterator, Mapping, Sequence
from datetime import datetime
from itertools import pairwise
from math import sqrt
from typing import NamedTuple

from coach.bench.begun_with import figures_of_shop
from coach.bench.fire_clock import seconds_between
from coach.bench.happened import began_at, is_put_down_later, moment_of, moments_of_work
from coach.bench.job_state import JobState, StepRecord
from coach.bench.known_hand import hand_taught_by
from coach.bench.off_bar import TakenOffBar, given_up_g, taken_off_bars, volume_mm3, was_worked
from coach.bench.own_blows import blows_by_step
from coach.bench.planned import at_the_fire, taken_of
from coach.ledger.course import AmendmentMark, Course, Mark, Outcome, heats_in
from coach.ledger.plan import Plan, PlannedPiece
from coach.ledger.weighing import expected_mass
from coach.ledger.working import piece_density_g_mm3
from coach.ledger.workpiece import Estimate, Workpiece, at_stock
from coach.log.entries import Entry
from coach.log.kinds.hand_known import HandKnown
from coach.log.kinds.reading import Reading
from coach.log.status import JobStatus
from coach.operations import operation
from coach.operations.measures import MASS
from coach.operations.shop_tests import SHOP_TESTS
from coach.quantities import Figure, grams, mm, seconds
from coach.quantities.figure import Span
from coach.quantities.moments import on_the_wall
from coach.recipe.model import Step

#: Nobody works so long without an entry: the smith was away, though no rest was entered (our choice).
_AWAY_S = 2 * 3600.0
#: No bar is brought to forging heat, worked and put back in less, in seconds, and no cold step is done
#: (judgement).
_LEAST_HEAT_S = 20.0
#: Of fewer sizes nothing can be said of a hand (our choice).
_LEAST_SIZES = 4
#: Whose hand it is plays no part where one job's own is told.
_ANY = "this"


class StepTaken(NamedTuple):
    """One step that is done or in hand."""

    number: int  # from 1
    title: str
    again: bool  # whether a way back put it in
    done: bool
    heats_planned: int  # as the plan is now
    heats: int  # taken
    worked: Figure  # how long, rests left out
    hours_known: bool = True  # whether that can be: heats put down within seconds were taken before
    blows: int = 0  # as they were counted
    blows_of: int = 0  # in so many of its heats; 0 where nobody counted any


class HeatsTaken(NamedTuple):
    """The heats of a job."""

    planned: int  # for the whole job, as it began
    planned_now: int  # the same with what ways back changed
    planned_so_far: int  # by the plan as it is now, up to the step in hand
    taken: int
    unmarked: int  # of those: they count because their step was finished, and nobody marked them
    steps: tuple[StepTaken, ...]  # those that are done and the one in hand


class TimeTaken(NamedTuple):
    """The hours of a job, by the moments of its entries; rests and gaps of two hours are left out."""

    began_at: str
    ended_at: str  # when the last step was done; empty until then
    days: int  # on how many days something was entered
    planned: str  # in all, as the recipe says it
    planned_at_the_fire: Span  # how long the planned heats keep a smith there
    in_all: Figure
    at_the_fire: Figure  # of that, in steps that took heats
    not_known: int = 0  # so many of the steps that took heats were put down afterwards, without their hours
    none_known: bool = False  # whether that is every one of them


class MetalTaken(NamedTuple):
    """The metal of a job: out of the rack, in the tool, and gone."""

    pieces: tuple[PlannedPiece, ...]  # the bar that was planned for each
    lengths: tuple[Figure, ...]  # of bar that each of them took, as it was marked, cut and cut anew
    planned: Figure  # mass of bar
    planned_lost: Figure  # mass that the steps were to take of it
    planned_tool: Figure  # mass that they were to leave: what was marked out beyond the drawing is in it
    used: Figure  # mass of bar as it was marked out
    used_measured: bool  # whether anything of it was measured, before it was worked; else it is as planned
    left: Figure  # mass as it is now
    weighed: bool  # whether that was weighed, since metal last went; else it is reckoned from the sizes
    aside: Figure  # mass of pieces that were spoiled and cut from their bar anew, or given up
    given_up: Figure  # of that, of those that were given up
    lost: Figure  # what has gone: scale, slugs, offcuts, the stone

    @property
    def set_aside(self) -> tuple[tuple[Figure, str], ...]:
        """Each mass that was set aside, and why."""
        anew = self.aside._replace(value=self.aside.value - self.given_up.value)
        return (anew, "spoiled and cut anew"), (self.given_up, "given up")


class HandKept(NamedTuple):
    """How near hammered sizes came to what was aimed at."""

    sizes: int  # how many that is told from
    off: Figure  # from the size aimed at, as a root mean square
    taught: Figure | None = None  # its scatter beside the usual one, as it is known now; `null` by too few
    told: int = 0  # by so many sizes, each counted as surely as it was the hand that brought it there
    before: int = 0  # so many of those in the jobs before


class GaugeUsed(NamedTuple):
    """How much was read with a gauge."""

    gauge: str
    readings: int
    questioned: int  # how many of them were not believed


def heats_taken(entries: Sequence[Entry], state: JobState) -> HeatsTaken:
    """Heats planned and taken, step by step."""
    steps, done, struck = state.plan.recipe.steps, len(state.records), blows_by_step(state)
    heats = [record.heats for record in state.records] + [state.heats] * (state.step is not None)
    worked, spoiled = _worked_s(entries, state), _spoiled_heats(state)
    planned = [_heats_given_up(state, one) or _planned(state, one.step, one.marks) for one in state.records]
    planned += [_planned(state, step, state.marks) for step in steps[done : done + 1]]
    return HeatsTaken(
        planned=sum(step.heats for step in state.first_plan.recipe.steps),
        planned_now=sum(step.heats for step in steps) + spoiled,
        planned_so_far=sum(step.heats for step in steps[: done + 1]) + spoiled,
        taken=state.heats_total,
        unmarked=sum(record.heats - _marked(record) for record in state.records if record.done_entry),
        steps=tuple(
            StepTaken(
                number=step.number,
                title=step.title,
                again=step.again,
                done=step.number <= done,
                heats_planned=planned_heats,
                heats=taken,
                worked=seconds(round(worked[step.number])),
                hours_known=step.number > done or worked[step.number] >= _LEAST_HEAT_S * max(taken, 1),
                blows=sum(struck.get(step.number, ())),
                blows_of=len(struck.get(step.number, ())),
            )
            for step, planned_heats, taken in zip(steps, planned, heats, strict=False)
        ),
    )


def _spoiled_heats(state: JobState) -> int:
    """The heats planned for what is cut anew, or was given up: its steps stand for none any more."""
    marks = (mark for course in state.courses() for mark in course.marks if isinstance(mark, AmendmentMark))
    anew = (mark.amendment for mark in marks if mark.amendment.cut_anew)
    given_up = (_heats_given_up(state, record) for record in state.records)
    return sum(one.heats for amendment in anew for one in amendment.again) + sum(given_up)


def _heats_given_up(state: JobState, record: StepRecord) -> int:
    """The heats planned for a step before its piece was given up; else 0, as where it is cut anew."""
    recipe, step = state.plan.recipe, record.step
    zones = {zone for name in recipe.given_up for zone in recipe.pieces[name].every_zone}
    stands_still = recipe.steps[step.number - 1].heats > 0
    if stands_still or not zones & {*step.zones} or _is_cut_anew(record.marks):
        return 0
    return step.heats or _planned_at_first(state, step)


def _planned_at_first(state: JobState, step: Step) -> int:
    return next((one.heats for one in state.first_plan.recipe.steps if one.title == step.title), 0)


def _is_cut_anew(marks: Sequence[Mark]) -> bool:
    return any(isinstance(one, AmendmentMark) and one.amendment.cut_anew for one in marks)


def _planned(state: JobState, step: Step, marks: Sequence[Mark]) -> int:
    """The heats planned for a step; those that it had where the piece in it was spoiled and is cut anew."""
    return step.heats if step.heats or not _is_cut_anew(marks) else _planned_at_first(state, step)


def _marked(record: StepRecord) -> int:
    return min(heats_in(record.marks), record.heats)


def time_taken(entries: Sequence[Entry], state: JobState) -> TimeTaken:
    """Hours planned and taken, the days, and how much of them was at the fire."""
    worked = _worked_s(entries, state)
    taken = heats_taken(entries, state)
    hot = sum(worked[step.number] for step in taken.steps if step.heats or step.heats_planned)
    last = state.records[-1].done_entry if state.step is None and state.records else None
    ended_at = moment_of(state.counted[last]) if last is not None else ""
    during = (at for at, _ in _moments(entries, state) if not ended_at or at <= ended_at)
    hot_steps = [step for step in taken.steps if step.heats]
    unknown = [step for step in hot_steps if not step.hours_known]
    return TimeTaken(
        began_at=began_at(state.counted.values()),
        ended_at=ended_at,
        days=len({on_the_wall(datetime.fromisoformat(at)).date() for at in during}),
        planned=state.first_plan.recipe.duration,
        planned_at_the_fire=at_the_fire(taken.planned, figures_of_shop(state.counted.values())),
        in_all=seconds(round(sum(worked.values()))),
        at_the_fire=seconds(round(hot)),
        not_known=len(unknown),
        none_known=0 < len(unknown) == len(hot_steps),
    )


def _worked_s(entries: Sequence[Entry], state: JobState) -> Mapping[int, float]:
    """How long each step was worked, in seconds, by its number: what lies between entries, rests apart."""
    ends = {record.done_entry for record in state.records}
    away = (JobStatus.RESTING, JobStatus.SET_ASIDE)
    worked: dict[int, float] = defaultdict(float)
    step, steps = 1, len(state.plan.recipe.steps)
    for (before_at, before), (at, entry) in pairwise(_moments(entries, state)):
        gap = seconds_between(before_at, at)
        if step <= steps and gap <= _AWAY_S and before.body.AFTER not in away:
            worked[step] += gap
        step += entry.number in ends
    return worked


def _moments(entries: Sequence[Entry], state: JobState) -> list[tuple[str, Entry]]:
    """The moments that a job's hours are told by: of every entry, or of its work if put down later."""
    if is_put_down_later(state.counted.values()):
        return moments_of_work(state.counted.values())
    return [(entry.at, entry) for entry in entries]


def metal_taken(state: JobState) -> MetalTaken | None:
    """The mass of bar planned and used, of the tool as drawn and as it is, and what went between."""
    now, plan = state.now, state.plan
    if now is None:
        return None
    sources = plan.recipe.sources  # a bar that others are taken from counts as theirs
    now_of = plan.recipe.pieces
    pieces = tuple(
        one._replace(metal=now_of[name].metal) if name in now_of and one.metal else one
        for name, one in state.bars_plan.pieces.items()
        if name not in sources
    )
    planned_g, planned_lost_g = sum(piece.mass.value for piece in pieces), _lost_g(state)
    marked, measured = _before_work(state)
    used = _mass(plan, marked, plan.recipe.steps[0])
    taken = taken_off_bars(state)
    used = used._replace(value=used.value + sum(_beyond_g(state, marked, one) for one in taken))
    left_of_given_up = given_up_g(state)
    aside = sum(one.aside_g for one in taken) + left_of_given_up
    given_up = left_of_given_up + sum(one.not_replaced_g for one in taken)
    step = state.step or plan.recipe.steps[-1]
    scales = _weighed(state)
    left = scales or _mass(plan, now, step, as_made=True)
    lost = max(used.value - left.value - aside, 0.0)
    beyond = {one.piece: one.beyond_mm + one.elsewhere_mm for one in taken}
    return MetalTaken(
        pieces=pieces,
        lengths=tuple(mm(one.length.value + beyond.get(one.piece, 0.0)) for one in pieces),
        planned=grams(planned_g),
        planned_lost=grams(planned_lost_g),
        planned_tool=grams(planned_g - planned_lost_g),
        used=used,
        used_measured=measured,
        left=left,
        weighed=scales is not None,
        aside=grams(aside),
        given_up=grams(given_up),
        lost=grams(lost, _lost_doubt(plan, marked, now, scales)),
    )


def _lost_g(state: JobState) -> float:
    """What the plan's steps were to take as the job began, each zone's metal at its own density."""
    plan, of_shop = state.bars_plan, figures_of_shop(state.counted.values())
    return sum(
        sum(taken_of(stage, of_shop).values()) * piece_density_g_mm3(plan.recipe.piece_of(zone))
        for zone, stages in plan.stages.items()
        if plan.recipe.piece_of(zone).name not in plan.recipe.sources
        for stage in stages
    )


def _before_work(state: JobState) -> tuple[Workpiece, bool]:
    """The bars as they are believed to have been before the first blow, and whether any was measured."""
    courses, measured = state.courses_by_plan(), False
    found = courses[0][1].start if courses else at_stock(state.bars_plan)
    for plan, course in courses:
        if was_worked(plan, course):
            break
        found = course.now
        measured = measured or any(one.surprise is not None and one.counts for one in course.outcomes)
    return found, measured


def _beyond_g(state: JobState, marked: Workpiece, taken: TakenOffBar) -> float:
    """What a piece took of its bar beyond what is believed of it before anything of the job was worked."""
    piece = state.plan.recipe.pieces[taken.piece]
    zones = [zone for zone in piece.zones if zone in state.bars_plan.start_mm3]
    beyond_mm3 = volume_mm3(marked, zones) - volume_mm3(at_stock(state.bars_plan), zones)
    return taken.beyond_g - beyond_mm3 * piece_density_g_mm3(piece)


def _masses(plan: Plan, workpiece: Workpiece, step: Step, *, as_made: bool) -> Iterator[Estimate]:
    """What each piece weighs that is not laid on another; `as_made` without what was given up."""
    for name, piece in plan.recipe.pieces.items():
        laid = any(workpiece.zones[zone].within is not None for zone in piece.zones)
        if not (laid or name in plan.recipe.sources or (as_made and piece.given_up)):
            found = expected_mass(plan, workpiece, step, name, MASS)
            if found is not None:
                yield found


def _mass(plan: Plan, workpiece: Workpiece, step: Step, *, as_made: bool = False) -> Figure:
    told = workpiece.summed(_masses(plan, workpiece, step, as_made=as_made))
    return grams(told.value, told.doubt)


def _lost_doubt(plan: Plan, marked: Workpiece, now: Workpiece, scales: Figure | None) -> float:
    """As the bar, and beside it what is known of what is left: the two go together, which is left out."""
    first = plan.recipe.steps[0]
    ends = (_mass(plan, marked, first), scales or _mass(plan, now, first, as_made=True))
    return sqrt(sum((one.doubt or 0.0) ** 2 for one in ends))


def _weighed(state: JobState) -> Figure | None:
    """The tool as the scales told it, where no metal has gone since; None where it was not weighed so."""
    hosts = [
        name
        for name, piece in state.plan.recipe.pieces.items()
        if state.now is not None
        and name in state.plan.recipe.finished
        and not piece.given_up
        and all(state.now.zones[zone].within is None for zone in piece.zones)
    ]
    found: dict[str, Outcome] = {}
    for plan, course in state.courses_by_plan():
        if was_worked(plan, course):
            found = {}
        for outcome in course.outcomes:
            reading = outcome.mark.reading
            if reading.dimension == MASS and outcome.counts:
                found[reading.zone] = outcome
    if not hosts or any(name not in found for name in hosts):
        return None
    colds = [one.surprise.cold for name in hosts if (one := found[name]).surprise is not None]
    if len(colds) < len(hosts):
        return None
    return grams(sum(one.size_mm for one in colds), sqrt(sum(one.doubt_mm**2 for one in colds)))


def hand_kept(state: JobState) -> HandKept | None:
    """How near the sizes that were hammered came to their aim, as each step left them; None of too few."""
    off = [away for course in state.courses() for away in _off_mm(state.plan, course)]
    if len(off) < _LEAST_SIZES:
        return None
    known = hand_taught_by(_ANY, state)
    away = mm(sqrt(sum(one**2 for one in off) / len(off)))
    if known is None:
        return HandKept(len(off), away)
    before = sum(one.body.sizes for one in state.counted.values() if isinstance(one.body, HandKnown))
    return HandKept(len(off), away, known.known.figure, known.known.sizes, before)


def _off_mm(plan: Plan, course: Course) -> Iterator[float]:
    """How far each size was from its aim that a hammer left and that was read at the step's end.

    The one that the metal settles says nothing of the hand.
    """
    if operation(course.step.operation).FIXES:
        return
    free = {(zone, stage.after.free) for zone, stage in plan.by_step[course.step.number].items()}
    left = {
        (one.mark.reading.zone, one.mark.reading.dimension): one
        for one in course.outcomes
        if one.counts and one.mark.reading.dimension in course.step.targets
    }
    for name, one in left.items():
        aim = one.limits if one.limits is not None and one.limits.is_two_sided else None
        if name not in free and one.surprise is not None and aim is not None:
            yield one.surprise.cold.size_mm - aim.nominal


def gauges_used(state: JobState) -> tuple[GaugeUsed, ...]:
    """What sizes were read with, the most used first."""
    asked = {outcome.mark.entry: outcome for course in state.courses() for outcome in course.outcomes}
    found: Counter[str] = Counter()
    doubted: Counter[str] = Counter()
    for entry in state.counted.values():
        if isinstance(read := entry.body, Reading) and read.dimension not in SHOP_TESTS:
            found[read.gauge] += 1
            doubted[read.gauge] += entry.number in asked and asked[entry.number].questioned
    return tuple(GaugeUsed(gauge, count, doubted[gauge]) for gauge, count in found.most_common())
