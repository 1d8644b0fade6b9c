"""Where a job stands: everything about it at one moment, as values whose names are also the JSON's keys.

Named tuples rather than dataclasses: they are made in a tenth of the time, and every opening of the bench
waits for them.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from coach.bench.against_metal import against_metal
from coach.bench.as_it_lies import worked_again
from coach.bench.at_odds import at_odds
from coach.bench.by_hand import ByHand, by_hand
from coach.bench.checks import Check, as_it_is_now, checks_of
from coach.bench.clock import HeatClock, clock_of
from coach.bench.closed_short import closed_short
from coach.bench.for_stone import beside_skins
from coach.bench.found_ahead import findings_ahead
from coach.bench.happened import began_at, moment_of
from coach.bench.hard_left import steel_rows, too_little_left
from coach.bench.job_state import JobState, StepRecord
from coach.bench.learned import LearnedOfShop, learned_of_shop
from coach.bench.let_go import let_go_outside
from coach.bench.numbered_now import numbered_now
from coach.bench.resting import heat_name, held
from coach.bench.righting import Right, rights, told_first, worry
from coach.bench.settled import as_read, as_rows, laid_on, settled_sizes
from coach.bench.skin import SteelSkin, short_skin, skins_in_hand
from coach.bench.step import StepToDo, step_to_do
from coach.bench.told_of_steps import heats_told
from coach.bench.verdicts import (
    Why,
    asking_to_measure,
    beside_will_pass,
    how_it_stands,
    of_finished,
)
from coach.ledger.amendment import REMAINS
from coach.ledger.course import AmendmentMark, Course, HeatMark
from coach.ledger.sent_back import short_of_soak
from coach.ledger.tightest import as_told
from coach.ledger.verdict import ON_PLAN_CHANCE, PlanState, Reason, Verdict
from coach.ledger.will_pass import LeastSure, WillPass
from coach.ledger.working import reshapes
from coach.ledger.zone_forecast import FinishedSize, Spare
from coach.log.entries import Entry
from coach.log.kinds.note import Note
from coach.log.status import JobStatus
from coach.operations.measures import MARK
from coach.quantities import NOTHING, Figure, Words, mm, run_on, say
from coach.recipe.model import Step


class Noted(NamedTuple):
    """Something written down during the job."""

    entry: int  # its entry's number
    text: str  # what was written down
    step: int  # the step then in hand, by the number that it has now
    at: str  # when


class LastVerdict(NamedTuple):
    """What the last reading of a size was found to be, when its step was finished."""

    zone: str
    dimension: str
    verdict: Verdict


class FinishedStep(NamedTuple):
    """A step that is behind us."""

    number: int  # from 1
    title: str  # what it is called
    heats: int  # how many heats it took
    entry: int  # the number of the entry that finished it
    verdicts: tuple[LastVerdict, ...]  # of its sizes


class LeftOut(NamedTuple):
    """An entry that cannot be reckoned with."""

    entry: int  # its number
    why: Words

    @property
    def words(self) -> Words:
        """What is told of it."""
        return say("entry {} cannot be reckoned with and counts as struck out: {}", self.entry, self.why)


class Standing(NamedTuple):
    """Everything about a job at one moment."""

    job: str  # the job's name
    title: str  # the recipe's title
    recipe: str  # the recipe's name
    state: JobStatus
    last_entry: int  # the number of the newest entry
    began_at: str  # when the job was begun
    last_at: str  # when the newest entry was made
    step: StepToDo | None  # the step in hand; `null` when every step is done
    steps: int  # how many the recipe has
    heats: int  # marked in this step
    heats_told: int | None  # that it was said to have taken, before it was gone back to; `null` where unsaid
    heat_name: str  # what the heat in hand is for: set, weld, close, mend; empty where none has a name
    heats_total: int  # heats of the whole job
    clock: HeatClock | None  # `null` when nothing was said of the fire in this step, or it is none
    checks: tuple[Check, ...]  # what the step asks to be measured, and whatever else was measured in it
    next_check: str | None  # the name of the first check without a believed reading
    given_up: tuple[str, ...]  # the pieces that are made no more
    sizes: tuple[FinishedSize, ...]  # the drawing as it is now expected to come out
    spares: tuple[Spare, ...]  # metal above the least that the drawing allows
    learned: tuple[LearnedOfShop, ...]  # what the readings have taught of the shop
    skins: tuple[SteelSkin, ...]  # how deep the fire has taken the carbon out of each steel
    chance: float  # of making the drawing
    verdict: PlanState
    reason: Why  # the size that decides, or words
    will_pass: WillPass | None  # that every size will be inside at the end; `null` where nothing can be said
    left_out: tuple[LeftOut, ...]  # entries that cannot be reckoned with: they count as struck out
    trouble: Words  # why the reckoning cannot go on; empty when it can
    notes: tuple[Noted, ...]
    to_right: tuple[Right, ...]  # what is still to be put right
    by_hand: tuple[ByHand, ...]  # what a way back, or metal lost, asks for by hand, until it is done
    done: tuple[FinishedStep, ...]  # the finished steps
    coming: tuple[str, ...]  # titles of the steps after this one
    rest_reason: Words  # what must be done before the job may rest; empty when it may
    do_now: str  # that in two words, as "temper now"; "" when it may
    sent_back: bool  # whether the last heat lay shorter in the fire than it is to soak: back in with it

    @property
    def unread(self) -> int:
        """How many sizes of the drawing nobody has measured since they were last worked."""
        return sum(not one.measured and one.dimension != REMAINS for one in self.sizes)

    @property
    def questioned(self) -> tuple[Check, ...]:
        """Readings that wait to be taken again."""
        return tuple(check for check in self.checks if check.is_questioned)

    @property
    def is_off(self) -> bool:
        """Whether the piece is off plan, or finished and not on plan."""
        return self.verdict is PlanState.OFF_PLAN or (
            self.step is None and self.verdict is not PlanState.ON_PLAN
        )

    @property
    def is_bad_news(self) -> bool:
        """Whether a script should stop and call the smith."""
        return (
            self.is_off
            or bool(self.trouble)
            or bool(self.left_out)
            or any(check.is_questioned or check.is_beyond for check in self.checks)
        )


def standing_of(entries: Sequence[Entry], state: JobState) -> Standing:
    """Everything about a job at one moment: all of its entries, and what follows from them."""
    recipe, step = state.plan.recipe, state.step
    course = state.course()
    found = state.forecast()
    trouble = state.trouble or (found.trouble if found is not None else NOTHING)
    skins = skins_in_hand(state) if found is not None and not trouble else ()
    to_right = rights(state)
    worried = worry(state, to_right) or too_little_left(state)
    measured, known = read_now(state), read_now(state, made=True)
    against = run_on(against_metal(state, measured).values(), "; ")
    worried = run_on((against, closed_short(state), worried), "; ")
    sizes = as_read(state, found.sizes(recipe, measured), known) if found else ()
    spares = as_rows(found.spares(recipe), sizes, known) if found else ()
    ahead = findings_ahead(state, step) if step is not None else ()
    will_pass = found.will_pass if found is not None else None
    if sizes and not trouble and not ahead and not _is_shaped_still(state, step):
        finished, laid = step is None, laid_on(state)
        known_so = {one.name for one in sizes if one.measured or one.chance >= ON_PLAN_CHANCE}
        sizes = tuple(one._replace(missed=one.zone not in laid and one.name not in known_so) for one in sizes)
        worried, let_go = worried or short_skin(skins), let_go_outside(state, sizes)
        chance, verdict, reason = of_finished(sizes, worried, let_go, laid=laid, finished=finished)
        will_pass = WillPass(chance, None, None) if will_pass is None else will_pass._replace(ceiling=None)
        chance = max(chance, will_pass.chance)
    else:
        settled = tuple(settled_sizes(state, sizes, measured))
        if found is not None:
            stays = {(one.zone, one.dimension): one.state for one in (o.size for o in settled if o.stays)}
            found = found.besides(stays, recipe.drawing)
        if found is not None and course is not None:
            reason = as_told(found.reason, spares, sizes, recipe.drawing)
            found = found._replace(reason=asking_to_measure(reason, course.now, measured))
        chance, verdict, reason = how_it_stands(
            found,
            trouble,
            ahead,
            settled,
            (worried, short_skin(skins, step.number if step is not None else None)),
            sizes,
            run_on((against, told_first(state, to_right)), "; "),
            at_odds(state, sizes, measured),
        )
        least = (
            LeastSure(one.size.name, one.size.zone, one.size.dimension, one.chance)
            for one in settled
            if one.chance < 1.0
        )
        if will_pass is not None:
            will_pass = will_pass.besides(least)
            out = [one.chance for one in settled if one.stays and one.size.is_surely_out]
            stands = beside_will_pass(chance, verdict, reason, will_pass, most=min(out, default=None))
            chance, verdict, reason = stands
            will_pass = will_pass.held_to(chance)
    decides = reason.measure if isinstance(reason, Reason) else ""
    checks = checks_of(state, course, found, decides, sizes, known) if course is not None else ()
    checks = beside_skins(checks, skins)
    kept = held(state)
    return Standing(
        job=entries[-1].job,
        title=recipe.title,
        recipe=recipe.name,
        state=state.status,
        last_entry=entries[-1].number,
        began_at=began_at(state.counted.values()),
        last_at=entries[-1].at,
        step=step_to_do(state.plan, step, state) if step else None,
        steps=len(recipe.steps),
        heats=state.heats,
        heats_told=heats_told(state, entries, step.number) if step is not None else None,
        heat_name=heat_name(state),
        heats_total=state.heats_total,
        clock=clock_of(state),
        checks=checks,
        next_check=next((check.name for check in checks if check.is_open), None),
        given_up=recipe.given_up,
        sizes=(*(one._replace(seems=one.only_seems) for one in sizes), *steel_rows(state)),
        spares=spares,
        learned=learned_of_shop(state),
        skins=skins,
        chance=chance,
        verdict=verdict,
        reason=reason,
        will_pass=will_pass,
        left_out=tuple(LeftOut(*one) for one in state.left_out.items()),
        trouble=trouble,
        notes=tuple(_notes(state)),
        to_right=to_right,
        by_hand=(*by_hand(state), *worked_again(entries, state)),
        done=tuple(_finished(state, record) for record in state.records),
        coming=tuple(s.title for s in recipe.steps[len(state.records) + 1 :]),
        rest_reason=kept.reason,
        do_now=kept.do_now,
        sent_back=step is not None and short_of_soak(step, state.marks) is not None,
    )


def _is_shaped_still(state: JobState, step: Step | None) -> bool:
    """Whether a step is to follow, or that in hand moves metal or takes it away."""
    if step is None:
        return False
    stages = state.plan.by_step[step.number].values()
    return step.number < len(state.plan.recipe.steps) or any(reshapes(step, one.zone) for one in stages)


def read_now(state: JobState, *, made: bool = False) -> dict[tuple[str, str], Figure | None]:
    """The sizes that were read and believed since a step last worked them, by zone and dimension.

    Each with what was read, cold, less the scale of the heats since; None where it is no part of the metal.
    Of sizes that are one, as those of a round hole, it is the first. A step in hand in which nothing was done
    yet has worked none. With those `made`, what a way back trimmed or upset to a size is of it until it is
    read.
    """
    found: dict[tuple[str, str], Figure | None] = {}
    for one in state.courses():
        stages = state.plan.by_step[one.step.number]
        worked = {size for size in found if size[0] in stages and stages[size[0]].works(size[1])}
        found = {
            (zone, name): read._replace(value=read.value + stages[zone].changes_mm(name))
            if read is not None and zone in stages and (zone, name) not in worked
            else read
            for (zone, name), read in found.items()
            if (zone, name) not in worked or not (one.is_begun or one.step is not state.step)
        }
        for mark in one.marks:  # what was read after it of the sizes that a way back changed is left in
            if isinstance(mark, AmendmentMark):
                for size in mark.amendment.changed_sizes(one.now):
                    found.pop(size, None)
                for new in mark.amendment.regained if made and not _is_worked_since(one, mark) else ():
                    if not new.under_way:
                        found[new.zone, new.dimension] = mm(new.size_mm, new.doubt_mm)
        for outcome in one.outcomes:
            if outcome.counts:
                cold = outcome.surprise.cold if outcome.surprise is not None else None
                zone, dimension = outcome.mark.reading[:2]
                state_now = one.now.zones.get(zone)
                one_with = state_now.shape.one_with(dimension) if state_now is not None else None
                size = zone, one_with or dimension
                found[size] = mm(cold.size_mm, cold.doubt_mm) if cold is not None else None
    return found


def _is_worked_since(course: Course, mark: AmendmentMark) -> bool:
    """Whether a heat has worked what was left when metal was lost."""
    after = course.marks[course.marks.index(mark) :]
    return mark.is_loss and any(isinstance(one, HeatMark) for one in after)


def _notes(state: JobState) -> Iterator[Noted]:
    counted = list(state.counted.values())
    for at, entry in enumerate(counted, 1):
        if isinstance(entry.body, Note):
            step = numbered_now(counted[at:], entry.body.step)
            yield Noted(entry.number, entry.body.text, step, moment_of(entry))


def _finished(state: JobState, record: StepRecord) -> FinishedStep:
    last: dict[tuple[str, str], Verdict] = {}
    for outcome in record.course.outcomes if record.course else ():
        judged = as_it_is_now(state, record.step, outcome)
        if judged is not None and outcome.counts:
            reading = outcome.mark.reading
            last[reading.zone, reading.dimension] = judged.verdict
    for later in state.courses():
        for mark in later.marks if later.step.number > record.step.number else ():
            for zone, name in (
                mark.amendment.changed_sizes(later.now) if isinstance(mark, AmendmentMark) else ()
            ):
                if name == MARK:  # made anew since
                    last.pop((zone, name), None)
    return FinishedStep(
        number=record.step.number,
        title=record.step.title,
        heats=record.heats,
        entry=record.done_entry or 0,
        verdicts=tuple(LastVerdict(*size, verdict) for size, verdict in last.items()),
    )
