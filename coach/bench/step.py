"""One step of a plan: what to do, to which sizes, how hot, and what is to be known of it."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable, Iterator
from itertools import chain
from typing import TYPE_CHECKING, Final, NamedTuple

from coach.bench.blows_a_heat import BlowsAHeat
from coach.bench.steel import breaks_a_coupon, steel_advice
from coach.bench.time_at_heat import TimeAtHeat, time_at_heat
from coach.forms import listed, said
from coach.ledger.hot_work import steels_of
from coach.ledger.layers import layers_of, times_of
from coach.ledger.nominal import Stage
from coach.ledger.plan import Plan
from coach.ledger.quenched_instead import quenched_instead
from coach.ledger.tempered import NOT_TAUGHT, OwnCurves
from coach.ledger.weigh_grain import caution_of_another_quench, left_out, quenched_coarse
from coach.ledger.weigh_heat import comes_oily, snaps_cold, untempered
from coach.ledger.weighing import kind_of
from coach.ledger.workpiece import SPREAD, Workpiece
from coach.metals.baths import WATERS
from coach.metals.quenches import OILY, QUENCHES
from coach.operations import Does, operation
from coach.operations.hazards import of_coupons, of_tempered_steel, of_untempered_steel
from coach.quantities.figure import Figure, Wanted, celsius, mm
from coach.quantities.words import Words, say
from coach.recipe.model import Step, spoken_of

if TYPE_CHECKING:
    from coach.bench.job_state import JobState


class Target(NamedTuple):
    """A size that a step works to."""

    zone: str  # empty where the step works on several
    dimension: str
    wanted: Wanted


#: The baths by the words that recipes have for them; of air they speak besides (our choice).
_BATHS: Final = tuple(dict.fromkeys(bath.split()[-1] for bath in QUENCHES if bath != "air"))


#: What is done in a step whose heat was too hot to quench from (common practice, no source).
_INSTEAD: Final = (
    "Do not quench it now. Let it cool in still air till it is black and end step {} without a quench: step "
    "{} quenches it. These words are of the quench that it was to be:"
)


class StepToDo(NamedTuple):
    """One step, as it is to be done."""

    number: int  # from 1
    title: str
    operation: str
    zones: tuple[str, ...]  # that it works on
    splits_into: tuple[str, ...]  # the zones that it splits its zone into; empty where it splits none
    how: str  # what to do
    watch: str  # what to watch for, "" for nothing
    cautions: tuple[str, ...]  # where the work can hurt
    targets: tuple[Target, ...]
    heats_planned: int
    heat_kind: str  # forging, welding, treatment or cold
    colour: str  # the heat by its colour, "" where none is said
    temperature: Figure | None  # the heat; None where none is said
    temperatures: tuple[Figure, ...]  # that of each heat, where each is lower than the last; empty elsewhere
    heat_names: tuple[str, ...]  # what each heat is for, in order; empty where they are all alike
    quench: str  # what it is quenched in, "" for nothing
    flux: str  # "" for none
    keep: tuple[str, ...]  # what stays in its place through the step
    gauge: str  # what its sizes are read with
    may_rest: bool  # whether the job may be put down after it
    know: tuple[Words, ...]  # what the steel, the skin and the finished head say of the step
    hot: TimeAtHeat | None  # None for cold work, a treatment, or where no temperature is said
    blows: BlowsAHeat | None = None  # a heat takes so many; `null` where nobody has counted any
    begins: Figure | None = None  # where its piece begins on the bar that is marked out; None at its end

    @property
    def advice(self) -> tuple[Words, ...]:
        """Everything that is to be known of it: what the steel says, then what the fire says."""
        return (*self.know, *(self.hot.advice if self.hot is not None else ()))


def step_to_do(plan: Plan, step: Step, job: JobState | None = None, own: OwnCurves = NOT_TAUGHT) -> StepToDo:
    """One step of a plan; `job` is the job that has it in hand, None before the first heat.

    `own` are the smith's own tempering curves that a job would begin with.
    """
    now = job.now if job is not None else None
    course = job.course() if job is not None else None
    instead = quenched_instead(plan.recipe, course) if course is not None and course.step is step else None
    zone = step.zones[0] if len(step.zones) == 1 else ""
    return StepToDo(
        number=step.number,
        title=step.title,
        operation=step.operation,
        zones=step.zones,
        splits_into=step.parts,
        how=_how(step)
        if instead is None
        else f"{_INSTEAD.format(step.number, instead.number)}\n{_how(step)}",
        watch=step.watch,
        cautions=_cautions(plan, step),
        targets=tuple(
            Target(zone, name, Wanted(step.targets[name], kind_of(step, name)))
            for name in spoken_of(step.shape, step.targets)
        ),
        heats_planned=step.heats,
        heat_kind=step.heat_kind,
        colour=step.colour,
        temperature=None if step.temperature_c is None else celsius(step.temperature_c),
        temperatures=_heat_by_heat(plan, step),
        heat_names=step.heat_names,
        quench=step.quench if instead is None else "",
        flux=step.flux,
        keep=step.keep,
        gauge=step.gauge,
        may_rest=step.may_rest,
        know=_know(plan, step, job, own),
        hot=time_at_heat(
            plan,
            step,
            now.belief.mean(SPREAD) if now is not None else 0.0,
            _worked_back(job, step) if job is not None else (),
        ),
        begins=_begins(plan, step, now),
        blows=_blows(job, step),
    )


def _blows(job: JobState | None, step: Step) -> BlowsAHeat | None:
    if job is None or not step.heats:
        return None
    from coach.bench.own_blows import blows_a_heat

    return blows_a_heat(job, step.operation)


def _begins(plan: Plan, step: Step, now: Workpiece | None) -> Figure | None:
    """Where a piece begins that is marked out behind others on one bar: as they are, or are planned."""
    if not (step.zones and step.does(Does.MARKS_OUT)):
        return None
    piece = plan.recipe.piece_of(step.zones[0]).name
    if now is not None:
        return mm(now.begins_mm(piece)) if piece in now.across else None
    planned = plan.pieces[piece].begins
    return planned if planned.value else None


def _heat_by_heat(plan: Plan, step: Step) -> tuple[Figure, ...]:
    """The heats of a normalising, as its one steel is to be let cool from them."""
    if not step.does(Does.NORMALISES) or step.temperature_c is None or step.heats < 2:
        return ()
    from coach.metals.hardening import normalising_heats_c

    steels = steels_of(plan, step)
    found = {normalising_heats_c(metal, step.temperature_c, step.heats) for metal in steels}
    return tuple(map(celsius, next(iter(found)))) if len(found) == 1 else ()


def _worked_back(job: JobState, step: Step) -> Collection[str]:
    """The zones that a way back works in a step, of a job: a plan has no log, and loads none."""
    from coach.bench.by_hand import worked_back

    return worked_back(job, step)


#: A colour says nothing of what is held for long: that goes by heat and time (common practice, no source).
_SOAKED: Final = (
    "Bring it slowly to its heat, right through, and hold it there for as long as is said; then let it cool."
)


def _how(step: Step) -> str:
    """How it is done, in the recipe's words; before those that name another bath than the step's what counts.

    A bath may be changed, by a line or by a way back, under words that were written for the one before.
    """
    how = step.how or operation(step.operation).SUMMARY
    if not step.how and step.does(Does.TEMPERS) and "soak" in step.targets:
        how = _SOAKED
    named = [bath for bath in _BATHS if re.search(rf"\b{bath}\b", how, re.IGNORECASE)] if step.quench else []
    own = {"brine", "water"} if step.quench in WATERS else {*step.quench.split()}
    if not named or own & {*named}:
        return how
    return f"The bath is {step.quench}, whatever these words, written for another, say of {named[0]}.\n{how}"


def _cautions(plan: Plan, step: Step) -> tuple[str, ...]:
    """Those of the step itself; before them, those of hard steel, of oil on it, and of a broken coupon."""
    first = [of_untempered_steel()] if untempered(plan, step) else []
    first += filter(None, [caution_of_another_quench(plan, step)])
    first += [OILY] if comes_oily(plan, step) else []
    first += [of_tempered_steel()] if snaps_cold(plan, step) else []
    first += [of_coupons()] if breaks_a_coupon(plan, step) else []
    return (*first, *(one for one in step.cautions if one not in first))


def _layers(plan: Plan, stage: Stage) -> tuple[Words, ...]:
    """How many layers of a stack lie on each other after a step; nothing where it is no stack's."""
    count = layers_of(plan.recipe, stage.zone, plan.stages, stage.step.number)
    return (say("{} layers of the stack lie on each other here.", count),) if count else ()


def _room_for_scale(plan: Plan, step: Step) -> Iterator[Words]:
    """By how much the step's sizes are not the drawing's, for the scale of the heats to come."""
    written = plan.as_written.steps[step.number - 1].targets
    rooms: dict[float, list[str]] = {}
    for name, limits in step.targets.items():
        if name in written and limits.low == written[name].low:
            if under_mm := written[name].nominal - limits.nominal:
                words = "{} is less already, {:hair} under the {} asked for, and no hammer makes it bigger."
                if under_mm < 0.0:
                    words = (
                        "{} is a little more, {:hair} over the {} asked for, and this makes it no smaller."
                    )
                yield say(words, said(name).capitalize(), mm(abs(under_mm)), mm(written[name].nominal))
        elif name in written and (room_mm := limits.nominal - written[name].nominal):
            rooms.setdefault(round(room_mm, 3), []).append(said(name))
    for room_mm, names in rooms.items():
        fuller = "fuller" if room_mm > 0.0 else "smaller"
        words = "{} {} {} than drawn: the heats after this step take that as scale."
        yield say(words, listed(names).capitalize(), mm(abs(room_mm)), fuller)


def _know(plan: Plan, step: Step, job: JobState | None, own: OwnCurves) -> tuple[Words, ...]:
    todo, stages = operation(step.operation), plan.by_step[step.number].values()
    worked = [one for one in stages if one.zone in step.zones]
    work: list[Iterable[Words]] = [todo.know(one.form_before, one.form_after) for one in worked]
    for one in worked:
        if step.parts:
            branches = plan.recipe.piece_of(one.zone).branches[one.zone]
            work.append(todo.know_cuts(one.form_before, {each.zone: each.share for each in branches}))
    work += [_room_for_scale(plan, step)]
    work += [quenched_coarse(plan, step), left_out(plan, step, job.courses() if job is not None else ())]
    work += [_layers(plan, one) for one in worked if times_of(one) > 1 or step.does(Does.CLOSES)]
    if job is None:
        steel = steel_advice(plan, step, None, own)
    else:
        from coach.bench.own_tempers import own_curves_of

        read_in = [(one.step, one.outcomes) for one in job.courses()]
        steel = steel_advice(plan, step, job.course(), own_curves_of(job), read_in)
    return (*chain.from_iterable(work), *steel)
