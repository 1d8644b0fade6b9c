"""One job in hand: everything that can be entered for it, and where it stands after each entry."""

from __future__ import annotations

from typing import TYPE_CHECKING

from coach.bench.admission import to_correct
from coach.bench.answer import Answer, Did, StepDone, Unsettled
from coach.bench.begun_with import begun_with
from coach.bench.beside_reading import beside_reading
from coach.bench.care import care_as_it_begins, care_of_first_fire
from coach.bench.checks import Check, checks_of, judged_anew
from coach.bench.clock import lay_for, lay_too_long, lay_too_short, of_no_heat
from coach.bench.ending import ends_outside, ends_unread, ends_unworked
from coach.bench.entering import AsTyped, EntryFault, Then, read_correction
from coach.bench.found_ahead import findings_ahead
from coach.bench.going_back import counts_again, going_back, gone_back
from coach.bench.happening import Happening
from coach.bench.heats_left_out import ends_short_of_heats
from coach.bench.history import Logged, entry_words, history
from coach.bench.job_state import JobState
from coach.bench.meanwhile import enters, enters_whatever_came
from coach.bench.on_its_bar import refuse_off_its_bar
from coach.bench.read_since import read_since
from coach.bench.resting import Care, StartingSize, care_at_rest, first_to_measure
from coach.bench.standing import Standing, read_now, standing_of
from coach.bench.told_of_steps import heats_told, in_place_of_planned
from coach.ledger.fire_after_temper import undone_by
from coach.ledger.verdict import PlanState
from coach.log.entries import Entry
from coach.log.kinds.brought_back import BroughtBack
from coach.log.kinds.done import Done
from coach.log.kinds.fire import BackInFire
from coach.log.kinds.heat import Heat
from coach.log.kinds.heat_fire_out import HeatFireOut
from coach.log.kinds.late_way_back import LateWayBack
from coach.log.kinds.reading import Reading
from coach.log.kinds.rested import Rested
from coach.log.kinds.resumed import Resumed
from coach.log.kinds.set_aside import SetAside
from coach.log.kinds.struck import Struck
from coach.quantities.errors import odd_in
from coach.quantities.words import NOTHING, Words, as_words, run_on, say

if TYPE_CHECKING:
    from collections.abc import Mapping

    from coach.bench.hafting import EyeForHaft, HaftAsked
    from coach.bench.looking_back import SpareGone
    from coach.bench.sheet import Sheet
    from coach.forms import Form
    from coach.ledger.remedies import Offer, WayBack
    from coach.quantities.figure import Figure


class Session(Happening):
    """The one service behind the screens and the commands.

    Every entry is on the disk before its method returns. LogError and its kinds come from the log; EntryFault
    for what cannot be entered.
    """

    _offered: tuple[Standing, tuple[Offer, ...]] | None = None  # what there was as it stood then

    def begun(self) -> Answer:
        """What is said of a job that was just begun; bad news where a check refuses its recipe."""
        last = self._entries[-1]
        told = say("Job {} is begun: {}", f"{self.job}{odd_in(self.job)}", self.recipe.title)
        if known := begun_with(self._entries, self.standing().verdict):
            told = say("{}. {}", told, known)
        for row in self.plan.rows:
            if order := row.order:
                told = say("{}. {}", told, order)
        found = findings_ahead(self._state, self.recipe.steps[0])
        bad = bool(found) or self.standing().verdict is PlanState.OFF_PLAN
        return Answer(told, last.number, bad_news=bad, care=care_as_it_begins(self.recipe))

    @enters
    def read(
        self,
        name: str,
        typed: str,
        *,
        gauge: str | None = None,
        hot: str | None = None,
        insist: bool = False,
        then: Then | None = None,
    ) -> Answer:
        """Enter one reading.

        Args:
            name: the size, as "blade.thickness".
            typed: what was read, as a smith writes it; a bare number is in the job's units.
            gauge: what it was read with; None takes the step's.
            hot: None for cold metal; "" for the step's own heat; else a temperature or a colour's name.
            insist: stand by it though it seems impossible.
            then: when it was taken, where that was earlier; see `then`.

        Raises EntryFault: the size, its name, the gauge or the heat cannot be read.
        """
        read = self.parsed(AsTyped(name, typed, gauge, hot, insist), then)
        before = self._state
        entry = self._enter(read)
        check = self._check_of(read, entry.number)
        bad = check is not None and (check.is_questioned or check.is_beyond)
        burns = self._burns(read)
        answer = self._answer(check or self.standing().trouble, entry, bad_news=bad or bool(burns))
        beside = beside_reading(self._state, name, read, entry, self.system)
        return self._with_others(answer._replace(beware=run_on((burns, *beside), "; ")), before, read)

    def _with_others(self, answer: Answer, before: JobState, read: Reading) -> Answer:
        """An answer to what was done to a reading, with the other sizes that are judged anew by it."""
        others = judged_anew(before, self._state, read)
        bad = any(one.is_questioned or one.is_beyond for one in others)
        return answer._replace(others=others, bad_news=answer.bad_news or bad or answer.is_outvoted)

    def _burns(self, read: Reading) -> Words:
        """Which of the metals of a zone must be feared to burn at the heat that was read; nothing if none."""
        from coach.fire.limits import burning_words
        from coach.ledger.hot_work import grades_in

        heat_c = read.size if read.dimension == "temperature" else read.hot_c
        if heat_c is None:
            return NOTHING
        step = self.recipe.steps[read.step - 1]
        metals = grades_in(self.plan, step._replace(zones=(read.zone,), heated=(), lays=None))
        return next(filter(None, (burning_words(metal, heat_c) for metal in metals)), NOTHING)

    def _check_of(self, read: Reading, number: int) -> Check | None:
        """What became of a reading, the entry of that number; a size may have been read again since."""
        checks, later = self.standing().checks, None
        if read.taken_at or self._state.step is None or number != self._entries[-1].number:
            course = self._state.course_of(read.step)
            checks = checks_of(self._state, course.up_to(number), None) if course is not None else ()
            later = read_since(course, read, number) if course is not None else None
        name = f"{read.zone}.{read.dimension}"
        found = next((one for one in checks if one.name == name), None)
        if found is None or found.reading is None or later is None:
            return found
        return found._replace(reading=found.reading._replace(later=later))

    def lies_too_long(self, now: str) -> Figure | None:
        """How long the piece lies in the fire by now, where that is longer than anybody means it to."""
        return lay_for(self._state.in_at, now)

    @enters
    def heat(self) -> Answer:
        """Mark one heat of the step in hand."""
        went_in = self._state.in_at
        return self._marked(self._enter(Heat(step=self._step().number)), went_in)

    @enters
    def heat_the_fire_was_out(self) -> Answer:
        """The same where the fire went out meanwhile, as over a night.

        The piece was not hot all the time that it lay there: the heat counts as one that nobody timed.
        """
        step = self._step().number
        body = HeatFireOut(step=step) if self._state.in_at else Heat(step=step)
        return self._marked(self._enter(body), "")

    def _marked(self, heat: Entry, went_in: str) -> Answer:
        step = self._step()
        lay = lay_too_long(went_in, heat.at) or lay_too_short(step, self._state.marks) or of_no_heat(step)
        count, planned = self._state.heats, step.heats
        again = undone_by(self._state.course(), self.recipe, step, heat.number)
        if count > planned > 0:
            told = say(
                "heat {} is marked; {} {} planned{}", count, planned, "was" if planned == 1 else "were", lay
            )
        else:
            stands_for = in_place_of_planned(self._state, self._entries, step.number)
            of_planned = say(" of {}", planned) if planned else ""
            told = say("heat {}{} is marked{}{}", count, of_planned, lay, stands_for)
        return self._answer(told, heat, bad_news=bool(lay or again))._replace(beware=again)

    @enters
    def fire(self) -> Answer:
        """The piece goes back in the fire: its soaking begins."""
        step = self._step()
        entry = self._enter(BackInFire(step=step.number))
        clock = self.standing().clock
        through = NOTHING
        if clock is not None and (soak := clock.soak_told) is not None:
            through = say("; through in about {}", soak)
        return Answer(say("back in the fire{}", through), entry.number)

    def done_warning(self, heats: int | None = None) -> Unsettled:
        """Why finishing the step now deserves a second look; None counts the heats that are marked."""
        standing = self.standing()
        if standing.step is None:
            return Unsettled()
        checks = tuple(check for check in standing.checks if not check.is_settled)
        to_right = () if standing.coming else standing.to_right
        unread = ends_unread(self._state, standing.sizes, standing.checks)
        outside = ends_outside(self._state, checks, standing.sizes)
        taken = next((one for one in (heats, standing.heats_told) if one is not None), standing.heats)
        return Unsettled(checks, to_right, *outside, unread, ends_short_of_heats(self._step(), taken))

    @enters
    def done(self, heats: int | None = None, at: str = "") -> Answer:
        """Finish the step in hand, which took so many heats; `at` a time, as `then` reads it, or now.

        None counts those marked; if none was, those that were told when the step was finished before, or else
        the planned ones. Raises EntryFault: there is no such time as yet.
        """
        step = self._step()
        marked = self._state.heats
        told = heats_told(self._state, self._entries, step.number) if heats is None else heats
        by_marks = told is None and marked > 0
        counted = told if told is not None else marked or step.heats
        warning, beware = self.done_warning(counted), ends_unworked(self._state)
        before = {one.entry for one in self.standing().to_right}
        done = Done(step=step.number, heats=counted, marked=by_marks, told=told is not None)
        entry = self._enter(self._end(done, at))
        following = self._state.step.title if self._state.step is not None else ""
        unmarked = counted if told is None and not marked else 0
        did = StepDone(step.number, step.title, unmarked, warning, following)
        now = self.standing()  # what the step leaves wrong, to be put right from its end on, is bad too
        bad = warning.is_bad_news or now.is_off or bool({one.entry for one in now.to_right} - before)
        answer = self._answer(did, entry, bad_news=bad)
        care = care_of_first_fire(self.recipe, self._state.step, self._entries[:-1])
        return answer._replace(care=care, beware=beware)

    @enters
    def back(self) -> Answer:
        """Go back to the last finished step."""
        left = self._state.step
        entry = self._enter(going_back(self._state))
        return self._answer(gone_back(left, self._step()), entry)

    @enters_whatever_came
    def correct(self, entry: int, typed: str) -> Answer:
        """Say what a reading really was: it counts so from where it was taken, and all that follows with it.

        Raises EntryFault: there is no such reading that counts, or the size cannot be read.
        """
        was = to_correct(self._state, self._entries, entry)
        correction = read_correction(entry, was, self.recipe.steps[was.step - 1], self.system, typed)
        refuse_off_its_bar(self._state, correction.applied_to(was))
        before = self._state
        made = self._enter(correction)
        corrected = correction.applied_to(was)
        check, now = self._check_of(corrected, entry), entry_words(corrected, self.recipe)
        bad = check is not None and check.is_questioned
        still = "; it is questioned as it is now, and does not count: read it again" if bad else ""
        told = say("entry {} is now {}{}", entry, now, still)
        answer = self._answer(told, made, bad_news=bad, replanned=True)
        return self._with_others(answer, before, corrected)

    def strike(self, entry: int | None = None) -> Answer:
        """Strike an entry out, None the latest that can be; striking a strike brings back what it struck."""
        return self._strike(self._to_strike(entry).number)

    @enters_whatever_came
    def _strike(self, entry: int) -> Answer:
        found = self._to_strike(entry)
        as_counted = self._state.counted[found.number].body  # as corrected
        before = self._state
        made = self._enter(Struck(entry=found.number))
        if isinstance(found.body, Struck):
            return self._answer(counts_again(found.body, self._state.step), made)
        answer = self._answer(say("struck out: {}", entry_words(as_counted, self.recipe)), made)
        return self._with_others(answer, before, as_counted) if isinstance(as_counted, Reading) else answer

    def ways_back(self) -> tuple[WayBack, ...]:
        """What can be done to come back onto plan, the best first; empty when nothing is wrong."""
        return tuple(offer.way for offer in self._offers())

    def _offers(self) -> tuple[Offer, ...]:
        from coach.bench.ways_back import offers_of

        standing = self.standing()
        if self._offered is None or self._offered[0] is not standing:
            self._offered = (standing, offers_of(self._state, standing, self._entries, self.rack))
        return self._offered[1]

    @enters
    def take(self, name: str, at: str = "") -> Answer:
        """Take a way back by its name or by as much of it as no other begins with; it can be struck out.

        `at` is a time of the step in hand, as it is typed: what was offered as the job stood then. Raises
        EntryFault: there is no such way back, or no such time.
        """
        from coach.bench.ways_back import cut_off_rack, offer_named, offers_of, taken_told, way_back

        if at:
            then, entries, taken_at = self._then_in_hand(at, "a way back")
            offer = offer_named(offers_of(then, standing_of(entries, then), entries, self.rack), name)
            if offer.way.again:
                raise EntryFault("A job that is begun anew is set aside now: leave the time out.")
            body = way_back(offer.way.name, offer.idea, then)
            entry = self._enter(LateWayBack(**vars(body), taken_at=taken_at))
            cut_off_rack(self.rack, offer.idea, self.job, entry.number)
            return self._answer(taken_told(offer, self._state), entry, replanned=True)
        offer = offer_named(self._offers(), name)
        if offer.way.again:
            aside = self.set_aside()
            begin = say("this job is set aside. Begin a new one by the same recipe: {}", self.recipe.title)
            return aside._replace(did=begin)
        entry = self._enter(way_back(offer.way.name, offer.idea, self._state))
        cut_off_rack(self.rack, offer.idea, self.job, entry.number)
        return self._answer(taken_told(offer, self._state), entry, replanned=True)

    def haft(self, asked: HaftAsked) -> EyeForHaft:
        """What a haft asks of the eye, without entering it; raises Refusal where that cannot be read.

        Where the job could not be worked to it, or would stand otherwise, that is told with it.
        """
        from coach.bench.hafting import fitted_eye, fitting

        eye, fitted = fitting(self._state, asked, self.system)
        state, trouble = self._with(fitted)
        if cannot := trouble or eye.cannot:
            return eye._replace(cannot=cannot, steps=())
        return fitted_eye(eye, self.standing(), standing_of(self._entries, state))

    @enters
    def fit_haft(self, asked: HaftAsked) -> Answer:
        """Work the eye to a haft that is there from now on; it can be struck out like any other entry.

        Raises EntryFault: the haft cannot be read, or the job has no one eye to fit to it.
        """
        from coach.bench.hafting import fitting, with_marks

        eye, fitted = fitting(self._state, asked, self.system)
        if eye.cannot and not self._with(fitted)[1]:
            raise EntryFault("That is not entered. {}.", eye.cannot)
        was, stood, entry = self._state, self.standing(), self._enter(fitted)
        told = with_marks(fitted.changes, stood, self.standing())
        return self._answer(self._with_rack(told, was), entry, replanned=True)

    @enters
    def rest(self, *, force: bool = False) -> Answer:
        """Put the job down until another time; raises EntryFault where it may not rest, unless by `force`."""
        held = self.standing().rest_reason
        entry = self._enter(Rested(forced=force and bool(held), reason=held))
        told = as_words("the job rests; it will be here as you leave it")
        if not_copied := self._on_rest():
            told = say("{}. {}", told, not_copied)
        return Answer(told, entry.number, bool(held))

    @enters_whatever_came
    def resume(self) -> Answer:
        """Resume the job after a rest."""
        return self._back_at_it("resumed", self._enter(Resumed()))

    @enters_whatever_came
    def set_aside(self) -> Answer:
        """Put the job out of the way, below the others in the shop's list."""
        held = self.standing().rest_reason
        entry = self._enter(SetAside())
        told = say("set aside; it should not lie like this. {}", held) if held else as_words("set aside")
        return Answer(told, entry.number, bad_news=bool(held))

    @enters_whatever_came
    def bring_back(self) -> Answer:
        """Bring a job back that was set aside."""
        return self._back_at_it("brought back", self._enter(BroughtBack()))

    def _back_at_it(self, told: str, entry: Entry) -> Answer:
        held = self.standing().rest_reason
        words = say("{}, and before anything else: {}", told, held) if held else as_words(told)
        return Answer(words, entry.number, bad_news=bool(held))

    def history(self) -> tuple[Logged, ...]:
        """Every entry in order."""
        return tuple(history(self._state, self._entries))

    def spare_gone(self, *, every: bool = False) -> SpareGone:
        """How the spare of each zone has gone, at the moments that turned the job or at every heat."""
        from coach.bench.looking_back import spare_gone

        return spare_gone(self._state, self.standing(), every=every)

    def sheet(self) -> Sheet:
        """The drawing against the tool as it came, and what it took, as far as the job has gone."""
        from coach.bench.sheet import sheet_of

        return sheet_of(self._entries, self._state, self.standing())

    def forms_came(self) -> Mapping[str, Form]:
        """The solid of every zone that has one of its own, its sizes as they came where measured."""
        from coach.bench.sheet import as_measured

        return as_measured(self.pictured().forms, self.sheet().sizes)

    def first_to_measure(self) -> tuple[StartingSize, ...]:
        """The sizes to measure cold before the first heat when the job is resumed."""
        told = {(size.zone, size.dimension) for size in self.standing().sizes if size.measured}
        read = {size: figure for size, figure in read_now(self._state).items() if size in told}
        return first_to_measure(self._state, read)

    def care_at_rest(self) -> tuple[Care, ...]:
        """What fire and piece ask for before they are left."""
        return care_at_rest(self._state)

    def _answer(self, did: Did, entry: Entry, *, bad_news: bool = False, replanned: bool = False) -> Answer:
        off_plan = self.standing().verdict is PlanState.OFF_PLAN
        return Answer(did, entry.number, bad_news or off_plan, replanned)
