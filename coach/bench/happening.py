"""What happened to the metal that no step was to do to it: told before it is entered, and entered."""

from __future__ import annotations

from contextlib import suppress
from typing import TYPE_CHECKING

from coach.bench.admission import following
from coach.bench.answer import Answer
from coach.bench.clock import lay_too_long, of_no_heat
from coach.bench.entering import AsTyped, EntryFault, Then, dimensions_now, read_typed, shop_tests_of
from coach.bench.happened import moment_of, said_at, until_then, worked_at
from coach.bench.meanwhile import enters
from coach.bench.noting import Noting
from coach.bench.on_its_bar import refuse_off_its_bar
from coach.bench.past_its_length import refuse_past_its_length
from coach.bench.read_cold import refuse_too_hot
from coach.bench.replay import replay
from coach.bench.standing import standing_of
from coach.bench.stood import Stood
from coach.bench.taken_then import began_then, ended_then, in_hand_then, taken_then
from coach.ledger.shop_test_of import shop_test_at
from coach.ledger.verdict import PlanState
from coach.log.entries import Entry
from coach.log.kinds.begun_before import BegunBefore
from coach.log.kinds.done import Done
from coach.log.kinds.fire import BackInFire
from coach.log.kinds.heat import Heat
from coach.log.kinds.late_done import LateDone
from coach.log.kinds.late_fire import LateFire
from coach.log.kinds.late_heat import LateHeat
from coach.log.kinds.late_loss import LateLoss
from coach.log.kinds.reading import Reading
from coach.log.kinds.rested import Rested
from coach.operations import operation
from coach.operations.shop_tests import SHOP_TESTS
from coach.quantities.moments import as_entered
from coach.quantities.refusal import Refusal
from coach.quantities.words import NOTHING, Words, counted, say

if TYPE_CHECKING:
    from coach.bench.edit_for_next import BeginsWith
    from coach.bench.job_state import JobState
    from coach.bench.losing import FailedTest, HowMuch, LossAsked, MetalGone
    from coach.bench.next_time import NextTime
    from coach.bench.standing import Standing
    from coach.bench.tells_most import DoubtOfJob
    from coach.bench.time_ahead import TimeAhead
    from coach.bench.told_and_came import ToldOfJob
    from coach.ledger.lost import Loss
    from coach.log.kinds.forged_with import ForgedWith
    from coach.log.kinds.hand_known import HandKnown
    from coach.log.kinds.metal_lost import MetalLost
    from coach.log.kinds.shop_known import ShopKnown
    from coach.recipe.model import Recipe


class Happening(Noting):
    """The part of a session that takes what happened besides the plan."""

    def loss(self, asked: LossAsked, at: str = "") -> MetalGone:
        """What a loss of metal would do to the job; nothing is entered. `at` is a time of the step in hand.

        Raises EntryFault: it cannot be read; LedgerError: the zone cannot have lost it.
        """
        from coach.bench.losing import metal_gone

        body, loss, much = self._losing(asked, at)
        state, trouble = self._with(body)
        if trouble:
            raise EntryFault("The job could not go on with so much less: {}", trouble)
        return metal_gone(body, loss, much, self.standing(), standing_of(self._entries, state))

    def if_failed(self, zone: str, test: str) -> FailedTest:
        """What it would do to the job if a test of the shop failed; nothing is entered.

        Raises EntryFault: the zone cannot be put to it, or the job could not go on.
        """
        from coach.bench.losing import FailedTest

        state, trouble = self._with(self.parsed(AsTyped(f"{zone}.{test}", "fail")))
        if trouble:
            raise EntryFault("The job could not go on so: {}", trouble)
        after = Stood.of(standing_of(self._entries, state))
        step = state.step or self._state.step
        told = SHOP_TESTS[test] if step is None else shop_test_at(state.plan, step, zone, test)
        return FailedTest(zone, test, told.after_fail, Stood.of(self.standing()), after)

    @property
    def now(self) -> str:
        """The moment that it is: ISO 8601, UTC."""
        return as_entered(self._clock())

    @property
    def worked_at(self) -> str:
        """When it was worked, put down or taken up last: as it was said, else as it was entered."""
        return worked_at(self._state.counted.values())

    @property
    def hard_since(self) -> str:
        """The moment of the earliest quench that no temper followed yet: ISO 8601, UTC; "" for none."""
        from coach.bench.left_hard import hard_since

        return hard_since(self._state)

    def ahead(self, by: str = "") -> TimeAhead:
        """How long the rest takes, how far it comes by an hour of today; raises EntryFault."""
        from coach.bench.time_ahead import time_ahead

        return time_ahead(self._state, self._clock(), by)

    def _then_in_hand(self, at: str, what: str) -> tuple[JobState, list[Entry], str]:
        """How the job stood at a time of the step in hand, what was entered by then, and its moment."""
        moment = in_hand_then(self._state, at, self._clock(), what)
        entries = until_then(self._entries, tuple(self._state.counted.values()), moment)
        return replay(self._first_plan, entries), entries, as_entered(moment)

    def _losing(self, asked: LossAsked, at: str) -> tuple[MetalLost, Loss, HowMuch]:
        """The entry of a loss of now, or of a time of the step in hand: of the piece as it was then."""
        from coach.bench.losing import losing

        if not at:
            return losing(self._state, asked, self.system)
        then, _, taken_at = self._then_in_hand(at, "a loss")
        body, loss, much = losing(then, asked, self.system)
        return LateLoss(**vars(body), taken_at=taken_at), loss, much

    def next_time(self, begins_with: BeginsWith = lambda _: ()) -> NextTime:
        """What the job cost most, and what of its recipe to change; nothing is entered.

        `begins_with` says what the next job of a recipe begins with of the hand and of the shop.
        """
        from coach.bench.looking_back import spare_gone
        from coach.bench.next_time import next_time
        from coach.bench.sheet import sheet_of

        standing = self.standing()
        sheet = sheet_of(self._entries, self._state, standing)
        gone = spare_gone(self._state, standing, every=True)
        return next_time(self.recipe_begun_by, sheet, gone, begins_with)

    @property
    def recipe_begun_by(self) -> Recipe:
        """The recipe as the job began by it, whatever was changed since."""
        return self._first_plan.as_written

    def fire_draws(self) -> int:
        """The number of the step whose temper or quench a fire now would undo; 0 where it undoes none."""
        from coach.ledger.fire_after_temper import drawn_in

        step = self._state.step
        drawn = drawn_in(self._state.plan.recipe, step) if step is not None else {}
        return max((one.number for one in drawn.values()), default=0)

    def know_hand(self, known: HandKnown) -> None:
        """Begin with a hand that other jobs have taught; raises Refusal."""
        self._enter(known)

    def begin_with(self, begun: ForgedWith | ShopKnown) -> None:
        """Begin in this fire and with this hammer, or with what is known of the shop; raises Refusal."""
        self._enter(begun)

    def leave_lesson_out(self, what: str) -> Answer:
        """Leave out what the job taught of a figure of the shop, for new jobs; raises Refusal."""
        from coach.log.kinds.lesson_left_out import LessonLeftOut

        body = LessonLeftOut(what)
        return Answer(body.words(), self._enter(body).number)

    def left_out_of_shop(self) -> dict[str, int]:
        """The figures of the shop of which this job's lesson is left out: the entry that does so, by name."""
        from coach.log.kinds.lesson_left_out import LessonLeftOut

        counted_now = self._state.counted.items()
        return {one.body.what: at for at, one in counted_now if isinstance(one.body, LessonLeftOut)}

    def hand_of(self) -> str:
        """The job whose hand this one begins with; "" where it begins with the usual one."""
        from coach.log.kinds.hand_known import HandKnown

        bodies = (one.body for one in self._state.counted.values())
        return next((one.job for one in bodies if isinstance(one, HandKnown)), "")

    def told_and_came(self) -> ToldOfJob | None:
        """What was told of the job while it was made; None where it is not finished, or not measured."""
        from coach.bench.sheet import sheet_of
        from coach.bench.told_and_came import told_of

        sheet = sheet_of(self._entries, self._state, self.standing())
        return told_of(self.job, self._state, sheet.sizes)

    def doubt(self) -> DoubtOfJob:
        """What the doubt of the job comes from, and what to measure first; nothing is entered.

        It may be asked for beside whatever is entered meanwhile: it is of the job as it stood.
        """
        from coach.bench.tells_most import doubt_of_job

        state, entries, then = self._state, tuple(self._entries), self.then()

        def if_read(name: str, text: str) -> Standing | None:
            try:
                reading = read_typed(state, then, self.system, AsTyped(name, text))
            except Refusal:
                return None
            entry = Entry(self.job, len(entries) + 1, entries[-1].at, reading, entries[-1].digest, "")
            told, trouble = following(self._first_plan, state, entries, entry)
            return None if trouble else standing_of(entries, told)

        return doubt_of_job(state, self.standing(), if_read)

    def zones_put_to(self, test: str) -> tuple[str, ...]:
        """The zones that a test of the shop can be made of, those of the step in hand first."""
        return tuple(zone for zone in self.zones_in_hand() if test in shop_tests_of(self._state, zone))

    def welds_there(self) -> tuple[str, ...]:
        """The zones whose weld is made, or is made in the step in hand, those of that step first."""
        test, steps = "weld_line", self.recipe.steps[: len(self._state.records) + 1]
        joins = frozenset(SHOP_TESTS[test].of_work)
        made = {zone for step in steps if joins & operation(step.operation).DOES for zone in step.zones}
        return tuple(zone for zone in self.zones_put_to(test) if zone in made)

    def then(self, step: int | None = None, at: str = "") -> Then:
        """When a reading was taken: now, unless a step or a time is said; raises EntryFault.

        A finished tool is measured as its last step left it.
        """
        if step is None and not at:
            here = self._state.step or self._state.records[-1].step
            return Then(here, self._state.course_of(here.number))
        return taken_then(self._state, step, at, self._clock())

    def parsed(self, typed: AsTyped, then: Then | None = None) -> Reading:
        """A reading as it would be entered, without entering it; raises EntryFault as `read` does."""
        then = then or self.then()
        read = read_typed(self._state, then, self.system, typed)
        refuse_too_hot(self.plan, then.step, read, typed)
        refuse_off_its_bar(self._state, read)
        refuse_past_its_length(self._state, read)
        return read

    def may_be_read(self) -> tuple[tuple[str, str], ...]:
        """What can be read of the zones of the step in hand, by zone and dimension; nothing at the end."""
        if self._state.step is None:
            return ()
        then, found = self.then(), list[tuple[str, str]]()
        for zone in then.step.zones:
            with suppress(EntryFault):  # it lies in another, or is cut up
                found += [(zone, dimension) for dimension in dimensions_now(self._state, zone, then)]
        return tuple(found)

    @enters
    def heat_then(self, step: int | None = None, at: str = "") -> Answer:
        """Mark one heat that nobody marked when it was taken: at a step, or at a time, as `then` reads them.

        Raises EntryFault: there is no such step or time as yet.
        """
        then = taken_then(self._state, step, at, self._clock(), "heat")
        of = then.step
        entry = self._enter(LateHeat(step=of.number, taken_at=then.taken_at, timed=bool(at)))
        records = self._state.records
        heats = records[of.number - 1].heats if of.number <= len(records) else self._state.heats
        told = say("a heat of step {}, {}, is marked", of.number, of.title)
        lay = self._lay_then(of.number, entry.number) or of_no_heat(of)
        told = say("{}: {} by now{}", told, counted(heats, "heat"), lay)
        return Answer(told, entry.number, bool(lay) or self.standing().verdict is PlanState.OFF_PLAN)

    def _lay_then(self, step: int, heat: int) -> Words:
        """What is said of a heat, the entry of that number, that by the clock lay too long; else nothing."""
        counted_now = tuple(self._state.counted.values())
        before = counted_now[: next(at for at, one in enumerate(counted_now) if one.number == heat)]
        trips = [one for one in before if isinstance(one.body, Heat | BackInFire | Rested)]
        went_in = trips[-1] if trips and isinstance(trips[-1].body, BackInFire) else None
        of = self._state.counted[heat]
        if went_in is None or went_in.body.of_step != step or not said_at(of.body):
            return NOTHING
        return lay_too_long(moment_of(went_in), moment_of(of))

    @enters
    def fire_then(self, step: int | None = None, at: str = "") -> Answer:
        """Say when the piece went in the fire: `step` and the time `at` as `then` reads them.

        Raises EntryFault: there is no such step or time as yet.
        """
        then = taken_then(self._state, step, at, self._clock(), "fire")
        entry = self._enter(LateFire(step=then.step.number, taken_at=then.taken_at))
        told = say("in the fire at {}, at step {}, {}", at.strip(), then.step.number, then.step.title)
        return Answer(told, entry.number, self.standing().verdict is PlanState.OFF_PLAN)

    @enters
    def fire_and_out_then(self, step: int | None, went_in: str, came_out: str) -> Answer:
        """One trip to the fire, by both its hours, as `then` reads them; raises EntryFault."""
        with self.together():
            self.fire_then(step, went_in)
            return self.heat_then(step, came_out)

    def _end(self, done: Done, at: str) -> Done:
        """The end of the step in hand, of now or of a time as it is typed; raises EntryFault."""
        if not at:
            return done
        return LateDone(**vars(done), taken_at=ended_then(self._state, at, self._clock()))

    @enters
    def begun_before(self, at: str) -> Answer:
        """Say when the work began, where that was before the job was entered; raises EntryFault."""
        entry = self._enter(BegunBefore(began_then(at, self._clock(), self._state.counted.values())))
        return Answer(entry.body.words(), entry.number)

    def zones_there(self) -> tuple[str, ...]:
        """The zones that the piece has at this moment, those of the step in hand first; all if it is unknown.

        One that is not made yet, or that has gone into another, has none of its own metal to lose.
        """
        course, now, zones = self._state.course(), self._state.now, self.zones_in_hand()
        if course is not None and not (course.is_begun or course.heats):
            now = course.start  # nothing is split or welded on before its step is begun
        if now is None:
            return zones
        there = [one for one in zones if (found := now.zones.get(one)) and (found.has_form or found.parts)]
        return tuple(there) or zones

    def zones_in_hand(self) -> tuple[str, ...]:
        """The zones that can lose metal, those of the step in hand first."""
        step, zones = self._state.step, tuple(self.plan.recipe.drawing)
        here = tuple(one for one in (step.zones if step is not None else ()) if one in zones)
        return (*here, *(one for one in zones if one not in here))

    def ends_freely_twice(self, zone: str) -> bool:
        """Whether both ends of a zone are free, so that it must be told which one metal was lost of."""
        now = self._state.now
        found = now.zones.get(zone) if now is not None else None
        return found is not None and found.has_form and all(found.bare_ends)

    def bent_by(self, zone: str, typed: str) -> Words:
        """What is to be put right of a zone that was bent by so much; see `coach.bench.bent`."""
        from coach.bench.bent import bent_by

        return bent_by(self._state, zone, typed, self.system)

    @enters
    def lose(self, asked: LossAsked, at: str = "") -> Answer:
        """Enter a loss of metal, of now or of a time of the step in hand; it can be struck out.

        Raises EntryFault: it cannot be read; LedgerError: the zone cannot have lost it.
        """
        body, loss, _ = self._losing(asked, at)
        entry = self._enter(body)
        bad = self.standing().verdict is PlanState.OFF_PLAN
        told = say("lost: {}; {}", body.title, loss.left)
        return Answer(told, entry.number, bad_news=bad, replanned=True)
