"""One job in hand: everything that can be entered for it, and where it stands after each entry."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import UTC, datetime
from typing import TYPE_CHECKING

from coach.bench.entering import EntryFault, read_typed
from coach.bench.entries import Entry
from coach.bench.history import entry_view, summary_lines
from coach.bench.log import Log, OutOfDate
from coach.bench.replay import (
    BEGAN,
    DONE,
    FIRE,
    HEAT,
    NOTE,
    READING,
    REMEDY,
    RESTED,
    RESUMED,
    SET_ASIDE,
    STRUCK,
    TAKEN_UP,
    JobState,
    apply,
    replay,
    struck_numbers,
)
from coach.bench.sentences import unsettled
from coach.bench.standing import Answer, CheckView, EntryView, HaftView, RemedyView, Standing
from coach.bench.views import standing_of
from coach.bench.ways_back import body_of, offer_named, offers_of, remedy_view
from coach.ledger.plan import Plan
from coach.ledger.verdict import Standing as LedgerStanding
from coach.ledger.verdict import Verdict
from coach.quantities import Shown
from coach.recipe.model import Recipe, Step

if TYPE_CHECKING:
    from coach.bench.hafting import HaftAsked
    from coach.ledger.remedies import Offer

LONGEST_NOTE = 2000
MOST_HEATS = 200

__all__ = ["EntryFault", "Session", "moment"]

_STRIKABLE = (READING, HEAT, FIRE, DONE, NOTE, REMEDY, RESTED, RESUMED, SET_ASIDE, TAKEN_UP)


def moment(clock: Callable[[], datetime]) -> str:
    """The clock's time as an entry carries it: ISO 8601, UTC."""
    return clock().astimezone(UTC).isoformat(timespec="milliseconds").replace("+00:00", "Z")


class Session:
    """The one service behind the screens and the commands.

    Every entry is on the disk before its method returns. LogError and its kinds come from the log; EntryFault
    for what cannot be entered.
    """

    def __init__(
        self,
        log: Log,
        job: str,
        plan: Plan,
        shown: Shown,
        clock: Callable[[], datetime],
        entries: list[Entry],
        on_rest: Callable[[], None],
    ) -> None:
        self.job = job
        self.shown = shown
        self._first_plan = plan
        self._log = log
        self._clock = clock
        self._entries = entries
        self._on_rest = on_rest  # what the shop does at each rest: keep a copy of the log
        self._out = struck_numbers(entries)
        self._state: JobState = replay(self._first_plan, entries)
        self._standing: Standing | None = None
        self._offered: tuple[Standing, tuple[Offer, ...]] | None = None  # what there was as it stood then

    @property
    def plan(self) -> Plan:
        """The plan as the job follows it now, with what remedies have changed."""
        return self._state.plan

    @property
    def recipe(self) -> Recipe:
        """The job's own recipe: frozen when it began, and changed since by remedies alone."""
        return self.plan.recipe

    def show_in(self, shown: Shown) -> None:
        """Change the units that sizes are shown in."""
        self.shown = shown
        self._standing = None

    def standing(self) -> Standing:
        """Where the job stands now."""
        if self._standing is None:
            self._standing = standing_of(self.job, self._entries, self._out, self._state, self.shown)
        return self._standing

    def parsed(
        self, name: str, typed: str, *, gauge: str | None = None, hot: str | None = None, insist: bool = False
    ) -> Mapping[str, object]:
        """A reading as it would be entered, without entering it; raises EntryFault as `read` does."""
        step = self._step()
        return read_typed(self._state, step, self.shown, name, typed, gauge=gauge, hot=hot, insist=insist)

    def read(
        self, name: str, typed: str, *, gauge: str | None = None, hot: str | None = None, insist: bool = False
    ) -> Answer:
        """Enter one reading.

        Args:
            name: the size, as "blade.thickness".
            typed: what was read, as a smith writes it; a bare number is in the job's units.
            gauge: what it was read with; None takes the step's.
            hot: None for cold metal; "" for the step's own heat; else a temperature or a colour's name.
            insist: stand by it though it seems impossible.

        Raises:
            EntryFault: the size, its name, the gauge or the heat cannot be read.
        """
        body = self.parsed(name, typed, gauge=gauge, hot=hot, insist=insist)
        entry = self._enter(READING, {**body, "step": self._step().number})
        standing = self.standing()
        name = f"{body['zone']}.{body['dimension']}"
        check = next((one for one in standing.checks if one.name == name), None)
        sentence = check.sentence if check is not None else standing.reason
        return Answer(sentence, entry.number, _is_bad(check) or self._is_off_plan())

    def heat(self) -> Answer:
        """Mark one heat of the step in hand."""
        step = self._step()
        entry = self._enter(HEAT, {"step": step.number})
        count = self._state.heats
        if count > step.heats > 0:
            told = f"Heat {count} is marked; {step.heats} {'was' if step.heats == 1 else 'were'} planned."
        else:
            told = f"Heat {count}{f' of {step.heats}' if step.heats else ''} is marked."
        return Answer(told, entry.number, self._is_off_plan())

    def fire(self) -> Answer:
        """The piece goes back in the fire: its soaking begins."""
        step = self._step()
        entry = self._enter(FIRE, {"step": step.number})
        clock = self.standing().clock
        told = "Back in the fire"
        if clock is not None and clock.soak_minutes is not None:
            told += f"; through in about {clock.soak_text}"
        return Answer(f"{told}.", entry.number, False)

    def done_warning(self) -> str:
        """Why finishing the step now deserves a second look; "" when it does not."""
        standing = self.standing()
        if standing.step is None:
            return ""
        return unsettled(standing.checks)

    def done(self, heats: int | None = None) -> Answer:
        """Finish the step in hand.

        Args:
            heats: how many heats it took; None counts those marked, or the planned ones if none was.
        """
        step = self._step()
        marked = self._state.heats
        if heats is not None and heats < marked:
            raise EntryFault(
                f"{marked} heat{' is' if marked == 1 else 's are'} marked in this step already, so it cannot "
                f"have taken {heats}; strike out a heat."
            )
        if heats is not None and heats > MOST_HEATS:
            raise EntryFault(f"{heats} heats in one step cannot be: the most that is taken is {MOST_HEATS}.")
        counted = heats if heats is not None else marked or step.heats
        warning = self.done_warning()
        by_marks = heats is None and marked > 0
        entry = self._enter(DONE, {"step": step.number, "heats": counted, "marked": by_marks})
        told = f"Step {step.number}, {step.title}, is done"
        if heats is None and not marked and step.heats:
            planned = "heat counts" if counted == 1 else f"{counted} heats count"
            told += f"; no heat was marked, so the planned {planned}"
        if warning:
            told += f" ({warning})"
        standing = self.standing()
        following = (
            f" Next: {standing.step.title}." if standing.step is not None else " That was the last step."
        )
        return Answer(f"{told}.{following}", entry.number, self._is_off_plan())

    def back(self) -> Answer:
        """Take the last finished step up again."""
        records = self._state.records
        if not records or records[-1].done_entry is None:
            raise EntryFault("No step is finished yet, so there is none to go back to.")
        entry = self._enter(STRUCK, {"entry": records[-1].done_entry})
        step = self._step()
        return Answer(f"Back at step {step.number}, {step.title}.", entry.number, self._is_off_plan())

    def note(self, text: str) -> Answer:
        """Write something down for later."""
        kept = text.strip()
        if not kept:
            raise EntryFault("The note is empty: type what is to be remembered.")
        if len(kept) > LONGEST_NOTE:
            raise EntryFault(f"The note is {len(kept)} characters long; keep it under {LONGEST_NOTE}.")
        step = self._state.step
        entry = self._enter(NOTE, {"text": kept, "step": step.number if step is not None else 0})
        return Answer("Noted.", entry.number, False)

    def strike(self, entry: int | None = None) -> Answer:
        """Strike an entry out; striking a strike brings back what it struck.

        Args:
            entry: its number; None takes the latest that can be struck.
        """
        found = self._to_strike(entry)
        if found.kind == DONE and any(
            other.kind == DONE and other.number > found.number and other.number not in self._out
            for other in self._entries
        ):
            raise EntryFault(
                f"Entry {found.number} finished step {found.body['step']}, and later steps are done since; "
                f"go back through those first."
            )
        made = self._enter(STRUCK, {"entry": found.number})
        view = entry_view(found, frozenset(), 0, self.recipe, self.shown)
        if found.kind == STRUCK:
            return Answer(f"Entry {found.body['entry']} counts again.", made.number, self._is_off_plan())
        return Answer(f"Struck out: {view.text}.", made.number, self._is_off_plan())

    def remedies(self) -> tuple[RemedyView, ...]:
        """What can be done to come back onto plan, the best first; empty when nothing is wrong."""
        return tuple(remedy_view(offer) for offer in self._offers())

    def _offers(self) -> tuple[Offer, ...]:
        standing = self.standing()
        if self._offered is None or self._offered[0] is not standing:
            self._offered = (standing, offers_of(self._state, self.shown))
        return self._offered[1]

    def take(self, name: str) -> Answer:
        """Take a remedy by its name or by as much of it as no other begins with.

        It can be struck out like any other entry.

        Raises:
            EntryFault: there is no such remedy as the job stands.
        """
        offer = offer_named(self._offers(), name)
        if offer.again:
            aside = self.set_aside()
            told = f"This job is set aside. Begin a new one by the same recipe: {self.recipe.title}."
            return Answer(told, aside.entry, False)
        step = self._state.step
        body = body_of(offer, step.number if step is not None else 0)
        entry = self._enter(REMEDY, body)
        told = f"{offer.title}: taken. {self.standing().reason}"
        return Answer(told, entry.number, self._is_off_plan())

    def haft(self, asked: HaftAsked) -> HaftView:
        """What a haft asks of the eye, without entering it; raises EntryFault as `fit_haft` does."""
        from coach.bench.hafting import haft_view

        return haft_view(self._state, asked, self.shown)

    def fit_haft(self, asked: HaftAsked) -> Answer:
        """Work the eye to a haft that is there from now on; it can be struck out like any other entry.

        Raises:
            EntryFault: the haft cannot be read, or the job has no one eye to fit to it.
        """
        from coach.bench.hafting import fit_body

        body = fit_body(self._state, asked, self.shown)
        entry = self._enter(REMEDY, body)
        return Answer(f"{body['changes']} {self.standing().reason}", entry.number, self._is_off_plan())

    def rest(self, *, force: bool = False) -> Answer:
        """Put the job down until another time.

        Raises:
            EntryFault: it may not rest here and `force` is not given.
        """
        standing = self.standing()
        if standing.step is None:
            raise EntryFault("Every step is done: there is nothing to rest from.")
        if not standing.may_rest and not force:
            raise EntryFault(standing.rest_reason)
        entry = self._enter(RESTED, {"forced": not standing.may_rest, "reason": standing.rest_reason})
        self._on_rest()
        return Answer("The job rests; it will be here as you leave it.", entry.number, not standing.may_rest)

    def resume(self) -> Answer:
        """Take the job up after a rest."""
        entry = self._enter(RESUMED, {})
        return Answer("Taken up again.", entry.number, False)

    def set_aside(self) -> Answer:
        """Put the job out of the way, below the others in the shop's list."""
        if self.standing().state == "set aside":
            raise EntryFault("The job is set aside already.")
        entry = self._enter(SET_ASIDE, {})
        return Answer("Set aside.", entry.number, False)

    def take_up(self) -> Answer:
        """Bring a job back that was set aside."""
        if self.standing().state != "set aside":
            raise EntryFault("The job is not set aside.")
        entry = self._enter(TAKEN_UP, {})
        return Answer("Taken up again.", entry.number, False)

    def history(self) -> tuple[EntryView, ...]:
        """Every entry in order, in the shop's words."""
        step = 1
        views = []
        finishing = {record.done_entry for record in self._state.records}
        for entry in self._entries:
            views.append(entry_view(entry, self._out, step, self.recipe, self.shown))
            if entry.number in finishing:
                step += 1
        return tuple(views)

    def summary(self) -> tuple[str, ...]:
        """What to know when taking the job up again."""
        return summary_lines(self.standing())

    def _is_off_plan(self) -> bool:
        return self.standing().verdict == LedgerStanding.OFF_PLAN.value

    def refresh(self) -> bool:
        """Catch up with what another window or command has entered; True when there was something."""
        if not self._log.changed():
            return False
        return self._catch_up()

    def _catch_up(self) -> bool:
        missed = self._log.entries(self.job, self._entries[-1].number)
        if not missed:
            return False
        self._entries.extend(missed)
        self._rebuild()
        return True

    def _rebuild(self) -> None:
        self._out = struck_numbers(self._entries)
        self._state = replay(self._first_plan, self._entries)
        self._standing = None

    def _enter(self, kind: str, body: Mapping[str, object]) -> Entry:
        try:
            entry = self._log.append(self.job, self._entries[-1].number, moment(self._clock), kind, body)
        except OutOfDate:
            # Someone else has entered something meanwhile: show it before anything is added on top.
            self._catch_up()
            raise
        self._entries.append(entry)
        if kind == STRUCK:
            self._rebuild()
        else:
            apply(self._state, entry)
            self._standing = None
        return entry

    def _step(self) -> Step:
        step = self._state.step
        if step is None:
            raise EntryFault("Every step of this job is done; go back a step to change something.")
        return step

    def _to_strike(self, number: int | None) -> Entry:
        if number is None:
            for entry in reversed(self._entries):
                if entry.kind in _STRIKABLE and entry.number not in self._out:
                    return entry
            raise EntryFault("There is nothing to strike out yet.")
        for entry in self._entries:
            if entry.number == number:
                if entry.number in self._out:
                    raise EntryFault(f"Entry {number} is struck out already.")
                if entry.kind == BEGAN:
                    raise EntryFault(
                        "The beginning of a job cannot be struck out; set the job aside instead."
                    )
                return entry
        raise EntryFault(
            f"There is no entry {number}; the entries are numbered 1 to {self._entries[-1].number}."
        )


def _is_bad(check: CheckView | None) -> bool:
    if check is None or check.reading is None:
        return False
    return check.reading.questioned or check.verdict in (Verdict.GONE_PAST.value, Verdict.OUT.value)
