"""One job in hand: its entries, the state they lead to, and how one more is made."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager, suppress
from datetime import datetime
from typing import TYPE_CHECKING

from coach.bench.admission import admitted, following, to_strike
from coach.bench.begun_with import Known, known_in
from coach.bench.belonging import check_entries
from coach.bench.entering import EntryFault
from coach.bench.history import entry_words
from coach.bench.job_state import JobState
from coach.bench.pictured import Pictured, pictured
from coach.bench.replay import replay
from coach.bench.standing import Standing, standing_of
from coach.forms import Form
from coach.ledger.plan import Plan
from coach.ledger.working import LedgerError
from coach.log.body import Body
from coach.log.entries import Entry
from coach.log.errors import OutOfDate
from coach.log.jobs import Log
from coach.log.kinds.forged_with import ForgedWith
from coach.log.newest import Newest
from coach.quantities.moments import as_entered
from coach.quantities.units import System
from coach.quantities.words import Words, say
from coach.recipe.model import Recipe, Step

if TYPE_CHECKING:
    from coach.bench.forms_by_step import FormsAfter
    from coach.bench.paper import JobSheet
    from coach.bench.planned import Planned
    from coach.bench.rack import RackOfShop


class JobInHand:
    """A job's log and where it stands; what can be entered is the session's own."""

    rack: RackOfShop | None = None
    """Of the shop that it is a job of, for what a way back takes."""

    def __init__(
        self,
        log: Log,
        job: str,
        plan: Plan,
        system: System,
        clock: Callable[[], datetime],
        entries: list[Entry],
        on_rest: Callable[[], Words],
    ) -> None:
        self.job = job
        self.system = system
        """The units of a bare number that is typed."""
        self._first_plan = plan
        self._log = log
        self._clock = clock
        self._entries = entries
        self._on_rest = on_rest  # keeps a copy of the log, or says why it could not
        self._standing: Standing | None = None
        self._waiting: list[tuple[str, Body]] | None = None  # for the rest of what is entered together
        self._rebuild()

    @property
    def newest(self) -> Newest:
        """Its newest entry, which seals every entry before it."""
        last = self._entries[-1]
        return Newest(self.job, last.number, last.digest)

    @property
    def plan(self) -> Plan:
        """The plan as the job follows it now, with what remedies have changed."""
        return self._state.plan

    @property
    def recipe(self) -> Recipe:
        """The job's own recipe: frozen when it began, and changed since by ways back alone."""
        return self.plan.as_written

    @property
    def begun_with(self) -> tuple[Known, ...]:
        """What it was begun with of the hand and of the shop, as far as that counts."""
        return known_in(self._state.counted.values())

    @property
    def forged_with(self) -> ForgedWith | None:
        """The fire and the hammer that it was begun with; None where neither was named."""
        bodies = (one.body for one in self._state.counted.values())
        return next((one for one in bodies if isinstance(one, ForgedWith)), None)

    def standing(self) -> Standing:
        """Where the job stands now."""
        if self._standing is None:
            self._standing = standing_of(self._entries, self._state)
        return self._standing

    def as_planned(self) -> Planned:
        """The plan that the job follows now; what is marked already lies where it was marked."""
        from coach.bench.as_marked import as_marked, marked_so_far
        from coach.bench.planned import planned_tool

        return as_marked(planned_tool(self.plan, self.begun_with), marked_so_far(self._state))

    def on_paper(self) -> JobSheet:
        """The job as it is taken to the forge on paper: what is done, and what is left of it."""
        from coach.bench.paper import job_sheet

        return job_sheet(self._state, self.standing())

    def forms_by_step(self) -> tuple[FormsAfter, ...]:
        """The solids that each finished step left, as they are believed to have been, from the bar on."""
        from coach.bench.forms_by_step import forms_by_step

        return tuple(forms_by_step(self._state))

    def forms_now(self) -> Mapping[str, Form]:
        """The solid of every zone that has one of its own now, as it is believed to be."""
        course = self._state.course()
        now = course.now if course is not None and course.is_begun else self._state.start
        if now is None:
            return {}
        found = {}
        for zone, state in now.zones.items():
            if state.has_form:
                with suppress(LedgerError):
                    found[zone] = now.form(zone)
        return found

    def pictured(self) -> Pictured:
        """The solids to draw: of a zone in work no more than was worked of it."""
        return pictured(self._state, self.forms_now())

    def forms_wanted(self) -> Mapping[str, Form]:
        """The same once the step in hand is done as it asks; everything else as it is now."""
        step = self._state.step
        stages = self.plan.by_step[step.number] if step is not None else {}
        zones = (step.parts or step.zones) if step is not None else ()
        asked = {zone: stage.form_after for zone, stage in stages.items() if zone in zones}
        gone = step.zones if step is not None and step.parts else ()
        there = {zone: form for zone, form in self.forms_now().items() if zone not in gone}
        return {**there, **asked}

    def piece_in_hand(self) -> str:
        """The piece that the step in hand works on; the first when every step is done."""
        step = self._state.step
        if step is None or not step.zones:
            return next(iter(self.recipe.pieces))
        return self.recipe.drawing[step.zones[0]].piece

    def refresh(self) -> bool:
        """Catch up with what another window or command has entered; True when there was something."""
        return self._log.changed() and self._catch_up()

    def _catch_up(self) -> bool:
        missed = self._log.entries(self.job, self._entries[-1].number)
        if not missed:
            return False
        self._entries.extend(missed)
        self._rebuild()
        return True

    def told_of(self, entries: Sequence[Entry]) -> Words:
        """What another window has entered, of several the last."""
        others = f"{len(entries) - 1} more, and last " if len(entries) > 1 else ""
        latest = entry_words(entries[-1].body, self.recipe)
        return say("entered elsewhere before that: {}{}", others, latest)

    def _rebuild(self) -> None:
        check_entries(self.job, self._first_plan.recipe, self._entries)
        self._take_over(replay(self._first_plan, self._entries))

    def _take_over(self, state: JobState) -> None:
        """Stand where these entries have led."""
        self._state: JobState = state
        self._standing = None

    def _with(self, body: Body) -> tuple[JobState, Words]:
        """Where one more entry would lead, and why the job could not be reckoned with it."""
        entry = self._next(body, self._entries[-1].at)
        return following(self._first_plan, self._state, self._entries, entry)

    def _next(self, body: Body, at: str) -> Entry:
        """The entry that would follow, without its seal."""
        last = self._entries[-1]
        return Entry(self.job, last.number + 1, at, body, last.digest, "")

    @contextmanager
    def together(self) -> Iterator[None]:
        """All that is entered meanwhile or none of it; it is on the disk once this ends. Raises LogError."""
        before, state = list(self._entries), self._state
        waiting: list[tuple[str, Body]] = []
        self._waiting = waiting
        try:
            yield
            made = self._log.append_items(self.job, before[-1].number, waiting) if waiting else []
            self._entries[len(before) :] = made
        except BaseException as error:
            self._entries[:] = before
            self._take_over(state)
            if isinstance(error, OutOfDate):
                self._catch_up()
            raise
        finally:
            self._waiting = None

    def _enter(self, body: Body) -> Entry:
        at = as_entered(self._clock())
        unsealed = self._next(body, at)
        state = admitted(self._first_plan, self._state, self._entries, unsealed)
        if self._waiting is not None:
            self._waiting.append((at, body))
            self._entries.append(unsealed)
            self._take_over(state)
            return self._entries[-1]
        try:
            entry = self._log.append(self.job, self._entries[-1].number, at, body)
        except OutOfDate:
            # Someone else has entered something meanwhile: show it before anything is added on top.
            self._catch_up()
            raise
        self._entries.append(entry)
        self._take_over(state)
        return entry

    def _step(self) -> Step:
        step = self._state.step
        if step is None:
            raise EntryFault("Every step of this job is done; go back a step to change something.")
        return step

    def _to_strike(self, number: int | None) -> Entry:
        if number is not None:
            return to_strike(self._state, self._entries, number)
        for entry in reversed(self._entries):
            if entry.body.UNDONE_IN_TURN and entry.number in self._state.counted:
                return entry
        raise EntryFault("There is nothing to strike out yet.")
