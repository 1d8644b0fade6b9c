"""A job's state: what is known of it once its entries were carried in."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass, field
from typing import NamedTuple

from coach.bench.fires_after import EnteredIn, Fire, fires_after, undone_by_fires
from coach.bench.waiting_pieces import courses_apart, waiting_apart, waits_for
from coach.forms import FormError
from coach.ledger.course import Course, Mark, heats_in, is_worked_in
from coach.ledger.fire_after_temper import Undone
from coach.ledger.following import follow
from coach.ledger.forecast import Forecast, forecast
from coach.ledger.judging import beside_its_quench
from coach.ledger.plan import Plan
from coach.ledger.working import LedgerError
from coach.ledger.workpiece import Workpiece
from coach.log.entries import Entry
from coach.log.status import JobStatus
from coach.quantities import NOTHING, Limits, Words
from coach.recipe.model import Step


class StepRecord(NamedTuple):
    """What was entered while one step was in hand."""

    step: Step
    marks: tuple[Mark, ...]
    course: Course | None  # None when the reckoning could not follow it
    heats: int
    done_entry: int | None  # None while it is in hand
    plan: Plan | None = None  # that it was ended by: what was cut anew or given up since is another's


@dataclass(slots=True)
class JobState:
    """Everything that follows from a job's entries so far."""

    plan: Plan  # with what remedies have changed
    first_plan: Plan  # as the job began
    held_against: Plan | None = None  # what the bars were parted by anew; None where they are as they began
    counted: dict[int, Entry] = field(default_factory=dict)  # by number, as corrected, in the order of events
    records: list[StepRecord] = field(default_factory=list)  # finished steps
    start: Workpiece | None = None  # before the step in hand; None when the reckoning stopped
    marks: list[Mark] = field(default_factory=list)  # of the step in hand
    waiting: dict[int, list[Mark]] = field(default_factory=dict)  # of later steps, made before going back
    out_at: str = ""  # when the piece last came out of the fire, ISO 8601 UTC
    in_at: str = ""  # when it went in, if it has not come out since
    status: JobStatus = JobStatus.UNDER_WAY
    trouble: Words = NOTHING
    left_out: dict[int, Words] = field(default_factory=dict)  # entries that cannot be reckoned with, and why
    doubted: frozenset[int] = frozenset()  # readings entered late that a later reading speaks against
    marked_by: Mapping[str, Plan] = field(default_factory=dict)  # by piece, what it was marked by
    redrawn: dict[tuple[str, str], Limits] = field(default_factory=dict)  # by zone and dimension, drawn anew
    # What was reckoned of the above, once asked for; an entry that is carried in makes it void.
    followed: tuple[Course | None] | None = field(default=None, compare=False)
    apart: tuple[Course, ...] | None = field(default=None, compare=False)
    foreseen: Forecast | None = field(default=None, compare=False)

    @property
    def step(self) -> Step | None:
        """The step in hand; None when all are done."""
        at = len(self.records)
        steps = self.plan.recipe.steps
        return steps[at] if at < len(steps) else None

    @property
    def bars_plan(self) -> Plan:
        """The plan of the bars with the zones that they have now."""
        return self.held_against or self.first_plan

    @property
    def is_begun(self) -> bool:
        """Whether anything was entered of the work of the step in hand."""
        return self.step is not None and is_worked_in(self.step, self.marks)

    @property
    def heats(self) -> int:
        """Heats marked in the step in hand."""
        return heats_in(self.marks)

    @property
    def heats_total(self) -> int:
        """Heats of the whole job so far."""
        later = sum(heats_in(marks) for marks in self.waiting.values())
        return self.heats + later + sum(record.heats for record in self.records)

    def course(self) -> Course | None:
        """The step in hand as far as it has gone; None when there is none or it cannot be reckoned."""
        if self.followed is None:
            self.followed = (self._follow(),)
        return self.followed[0]

    @property
    def now(self) -> Workpiece | None:
        """The workpiece as it is believed to be; None when the reckoning stopped."""
        course = self.course()
        return course.now if course is not None else self.start

    def courses(self) -> list[Course]:
        """Every step that could be followed, those on pieces that wait too, and the one in hand the last."""
        in_hand = self.course()
        found = (*(record.course for record in self.records), *self._waiting_courses(), in_hand)
        return [course for course in found if course is not None]

    def entered(self) -> list[EnteredIn]:
        """What was entered, step by step, as the plan has them now."""
        steps = self.plan.recipe.steps
        found = [EnteredIn(steps[number - 1], marks) for number, marks in self.waiting.items()]
        if self.step is not None:
            found.append(EnteredIn(self.step, self.marks))
        for record in self.records:
            marked = heats_in(record.marks)
            ended_by = record.done_entry or 0 if record.heats > marked else 0
            found.append(EnteredIn(steps[record.step.number - 1], record.marks, ended_by))
        return found

    def fires_after(self) -> list[Fire]:
        """Fires after the temper in steps that need none."""
        return fires_after(self.plan.recipe, self.entered(), self.counted)

    def undone(self) -> Undone:
        """The readings that such fires have undone."""
        return undone_by_fires(self.plan.recipe, self.entered(), [*self.counted])

    def _waiting_apart(self) -> dict[int, list[Mark]]:
        return waiting_apart(self.plan.recipe, len(self.records), self.waiting)

    def waits_for(self, zones: Collection[str]) -> int | None:
        """The step on a piece that waits, which zones are of that are not in hand; None where it is none."""
        return waits_for(self.plan.recipe, len(self.records), self.waiting, zones)

    def _waiting_courses(self) -> tuple[Course, ...]:
        """The steps on pieces that wait for their turn, as far as they have gone."""
        if self.apart is None:
            self.apart = self._follow_apart()
        return self.apart

    def _follow_apart(self) -> tuple[Course, ...]:
        waiting = self._waiting_apart()
        if not waiting or self.start is None:
            return ()
        try:
            return tuple(courses_apart(self.plan, self.start, waiting, self.doubted))
        except (LedgerError, FormError) as error:
            self.trouble = error.words
            return ()

    def forget_what_was_reckoned(self) -> None:
        """Reckon anew when next asked: an entry more was carried in."""
        self.followed = self.apart = self.foreseen = None

    def courses_by_plan(self) -> list[tuple[Plan, Course]]:
        """The same, each with the plan that it was ended by; with the one now where it is not ended."""
        ended = [(one.plan or self.plan, one.course) for one in self.records if one.course is not None]
        return [*ended, *((self.plan, one) for one in self.courses()[len(ended) :])]

    def course_of(self, step: int) -> Course | None:
        """A step that is finished or in hand, by its number; None where it could not be followed."""
        return self.records[step - 1].course if step <= len(self.records) else self.course()

    def _follow(self) -> Course | None:
        if self.step is None or self.start is None:
            return None
        self.trouble = NOTHING  # with the start known, only this step can still stop the reckoning
        try:
            waiting = self._waiting_courses()
            course = self._followed_from(waiting[-1].now if waiting else self.start, self.step)
        except (LedgerError, FormError) as error:
            self.trouble = error.words
            return None
        return beside_its_quench(self.plan, course, [one.course for one in self.records])

    def _followed_from(self, start: Workpiece, step: Step) -> Course:
        undone = self.undone()
        return follow(self.plan, start, step, self.marks, finished=False, doubted=self.doubted, undone=undone)

    def forecast(self) -> Forecast | None:
        """The rest of the job; None when the reckoning stopped."""
        course = self.course()
        if self.start is None or (course is None and self.step is not None):
            return None
        if self.foreseen is None:
            waiting = self._waiting_apart()
            if waiting and self.step is not None:  # each is carried on in its turn, from before it
                course = self._followed_from(self.start, self.step)
            ahead = len(self.records) + 1
            self.foreseen = forecast(self.plan, course, self.start, ahead, waiting, self.doubted)
        return self.foreseen
