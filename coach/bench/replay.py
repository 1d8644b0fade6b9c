"""A job's state, always made by replaying its entries."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import datetime
from typing import NamedTuple

from coach.ledger.amendment import Again, Amendment, amended_plan, thawed, titles_again
from coach.ledger.course import AmendmentMark, Course, HeatMark, Mark, ReadingMark
from coach.ledger.following import follow
from coach.ledger.forecast import Forecast, forecast
from coach.ledger.hot_work import hot_work, minutes_hot
from coach.ledger.plan import Plan
from coach.ledger.reading import Reading
from coach.ledger.scaling import scaled
from coach.ledger.working import LedgerError
from coach.ledger.workpiece import Workpiece, at_stock
from coach.log.entries import Entry
from coach.recipe.model import Step

BEGAN = "began"
READING = "reading"
HEAT = "heat"  # out of the fire, and the work done until it goes back
FIRE = "fire"  # back in the fire
DONE = "done"
NOTE = "note"
STRUCK = "struck"
RESTED = "rested"
RESUMED = "resumed"
SET_ASIDE = "set aside"
TAKEN_UP = "taken up"
REMEDY = "remedy"
CORRECTED = "corrected"  # a reading was really another one
TO_RIGHT = "to put right"
RIGHTED = "put right"

#: What says something without changing how far the job is.
_ASIDES = (NOTE, BEGAN, STRUCK, CORRECTED, TO_RIGHT, RIGHTED)


def struck_numbers(entries: Sequence[Entry]) -> frozenset[int]:
    """Numbers of the entries that do not count; a strike that was itself struck out does nothing."""
    out: set[int] = set()
    for entry in reversed(entries):
        if entry.kind == STRUCK and entry.number not in out:
            out.add(_whole(entry, "entry"))
    return frozenset(out)


class StepRecord(NamedTuple):
    """What was entered while one step was in hand."""

    step: Step
    start: Workpiece
    marks: tuple[Mark, ...]
    course: Course | None  # None when the reckoning could not follow it
    heats: int
    done_entry: int | None  # None while it is in hand


@dataclass(slots=True)
class JobState:
    """Everything that follows from a job's entries so far."""

    plan: Plan  # with what remedies have changed
    first_plan: Plan  # as the job began
    records: list[StepRecord] = field(default_factory=list)  # finished steps
    start: Workpiece | None = None  # before the step in hand; None when the reckoning stopped
    marks: list[Mark] = field(default_factory=list)  # of the step in hand
    waiting: dict[int, list[Mark]] = field(default_factory=dict)  # of later steps, made before going back
    out_at: str = ""  # when the piece last came out of the fire, ISO 8601 UTC
    in_at: str = ""  # when it went in, if it has not come out since
    state: str = "under way"
    trouble: str = ""

    @property
    def step(self) -> Step | None:
        """The step in hand; None when all are done."""
        at = len(self.records)
        steps = self.plan.recipe.steps
        return steps[at] if at < len(steps) else None

    @property
    def heats(self) -> int:
        """Heats marked in the step in hand."""
        return sum(isinstance(mark, HeatMark) for mark in self.marks)

    @property
    def heats_total(self) -> int:
        """Heats of the whole job so far."""
        later = sum(isinstance(mark, HeatMark) for marks in self.waiting.values() for mark in marks)
        return self.heats + later + sum(record.heats for record in self.records)

    def course(self) -> Course | None:
        """The step in hand as far as it has gone; None when there is none or it cannot be reckoned."""
        if self.step is None or self.start is None:
            return None
        self.trouble = ""  # with the start known, only this step can still stop the reckoning
        try:
            return follow(self.plan, self.start, self.step, self.marks, finished=False)
        except LedgerError as error:
            self.trouble = str(error)
            return None

    def forecast(self, course: Course | None) -> Forecast | None:
        """The rest of the job; None when the reckoning stopped."""
        if self.start is None or (course is None and self.step is not None):
            return None
        following = self.step.number if self.step is not None else len(self.plan.recipe.steps) + 1
        return forecast(self.plan, course, self.start, following)


def replay(plan: Plan, entries: Iterable[Entry]) -> JobState:
    """The state that a job's entries lead to."""
    listed = list(entries)
    out = struck_numbers(listed)
    state = JobState(plan, plan, start=at_stock(plan))
    corrected = corrections(listed, out)
    for entry in listed:
        if entry.number not in out:
            apply(state, corrected.get(entry.number, entry))
    return state


def corrections(entries: Sequence[Entry], out: frozenset[int]) -> dict[int, Entry]:
    """The readings that were corrected, by their number, as they count now."""
    by_number = {entry.number: entry for entry in entries}
    found: dict[int, Entry] = {}
    for entry in entries:
        if entry.kind == CORRECTED and entry.number not in out:
            was = by_number[_whole(entry, "entry")]
            told = {name: value for name, value in entry.body.items() if name != "entry"}
            found[was.number] = was._replace(body={**was.body, **told})
    return found


def apply(state: JobState, entry: Entry) -> None:
    """Carry one entry that counts into a state."""
    if entry.kind == READING:
        _mark(state, entry, reading_mark(entry))
    elif entry.kind == HEAT:
        _mark(state, entry, HeatMark(entry.number, _minutes_hot(state, entry)))
        state.out_at, state.in_at = entry.at, ""
    elif entry.kind == FIRE:
        state.in_at = entry.at
    elif entry.kind == RESTED:
        state.out_at = state.in_at = ""
    elif entry.kind == DONE and state.step is not None and state.step.number == _whole(entry, "step"):
        # One that was struck out and brought back again may find another step in hand: it says nothing then.
        _finish(state, entry)
    elif entry.kind == REMEDY:
        _take(state, entry)
    state.state = word_after(state.state, entry.kind, finished=state.step is None)


def _minutes_hot(state: JobState, entry: Entry) -> float | None:
    """How long the piece lay hot in the fire before a heat; None where the clock was not used."""
    if not state.in_at:
        return None
    number = _whole(entry, "step") if "step" in entry.body else 0
    steps = state.plan.recipe.steps
    hot = hot_work(state.plan, steps[number - 1]) if 0 < number <= len(steps) else None
    if hot is None:
        return None
    away = seconds_between(state.out_at, state.in_at) if state.out_at else None
    return minutes_hot(hot, seconds_between(state.in_at, entry.at) / 60.0, away)


def seconds_between(earlier: str, later: str) -> float:
    """Seconds from one entry's moment to another's; 0 when a clock was put back between them."""
    return max(0.0, (datetime.fromisoformat(later) - datetime.fromisoformat(earlier)).total_seconds())


def _take(state: JobState, entry: Entry) -> None:
    """A remedy: from here on the job follows the plan as it changes it."""
    amendment = amendment_of(entry)
    try:
        state.plan = amended_plan(state.plan, amendment)
    except LedgerError as error:
        state.trouble = str(error)
        return
    moved = {number: number + sum(one.after < number for one in amendment.again) for number in state.waiting}
    state.waiting = {moved[number]: marks for number, marks in state.waiting.items()}
    _mark(state, entry, AmendmentMark(entry.number, amendment))


def put_in_by(entry: Entry, entries: Sequence[Entry]) -> tuple[Again, ...]:
    """The steps that a remedy's entry put in, or that one which strikes it out takes away or brings back."""
    by_number = {one.number: one for one in entries}
    while entry.kind == STRUCK:
        entry = by_number[_whole(entry, "entry")]
    return amendment_of(entry).again if entry.kind == REMEDY else ()


def amendment_of(entry: Entry) -> Amendment:
    """What a remedy's entry changes; raises TypeError where it holds nothing of the kind."""
    kept = entry.body["amendment"]
    if not isinstance(kept, Mapping):
        raise TypeError("a remedy's entry holds no amendment")
    return thawed(kept)


def _mark(state: JobState, entry: Entry, mark: Mark) -> None:
    """A heat or a reading goes to its own step; after going back it waits there for that step."""
    number = _whole(entry, "step") if "step" in entry.body else 0
    if state.step is not None and number > state.step.number:
        state.waiting.setdefault(number, []).append(mark)
    else:
        state.marks.append(mark)


def word_after(word: str, kind: str, *, finished: bool) -> str:
    """The word for a job's state once an entry of a kind is made; a note or a strike changes nothing."""
    if kind in _ASIDES:
        return word
    if kind == SET_ASIDE:
        return "set aside"
    if finished:
        return "finished"
    return "resting" if kind == RESTED else "under way"


class Progress(NamedTuple):
    """How far a job is."""

    done: int  # steps
    word: str  # for its state
    titles: list[str]  # of its steps, with those that remedies put in


def progress(entries: Sequence[Entry], titles: Sequence[str]) -> Progress:
    """How far a job is, without reckoning anything; `titles` are those of its recipe's steps."""
    out = struck_numbers(entries)
    done, word, now = 0, "under way", list(titles)
    for entry in entries:
        if entry.number not in out:
            done += entry.kind == DONE and _whole(entry, "step") == done + 1
            if entry.kind == REMEDY:
                now = titles_again(now, amendment_of(entry).again)
            word = word_after(word, entry.kind, finished=done >= len(now))
    return Progress(done, word, now)


def _finish(state: JobState, entry: Entry) -> None:
    step, start = state.step, state.start
    assert step is not None
    # Those that were marked are counted again, for one of them may have been struck out since.
    counted = state.heats if entry.body.get("marked") else _whole(entry, "heats")
    course = None
    following = None
    if start is not None:
        try:
            course = follow(state.plan, start, step, state.marks, finished=True)
            more = counted - course.heats
            following = course.now
            if more > 0:
                following = scaled(state.plan, following, step, course.start_forms, float(more))
        except LedgerError as error:
            state.trouble = str(error)
        state.records.append(StepRecord(step, start, tuple(state.marks), course, counted, entry.number))
    else:
        state.records.append(
            StepRecord(step, state.records[-1].start, tuple(state.marks), None, counted, entry.number)
        )
    state.start = following
    state.marks = state.waiting.pop(step.number + 1, [])


def reading_mark(entry: Entry) -> ReadingMark:
    """The reading that an entry holds."""
    body = entry.body
    hot = body.get("hot_c")
    return ReadingMark(
        entry.number,
        Reading(
            zone=str(body["zone"]),
            dimension=str(body["dimension"]),
            size_mm=_number(body["size"]),
            gauge=str(body["gauge"]),
            hot_c=None if hot is None else _number(hot),
            hot_doubt_c=_number(body.get("hot_doubt_c", 0.0)),
        ),
        insisted=bool(body.get("insisted", False)),
    )


def _number(value: object) -> float:
    if isinstance(value, int | float):
        return float(value)
    raise TypeError(f"{value!r} is not a number")


def _whole(entry: Entry, key: str) -> int:
    return int(_number(entry.body[key]))
