"""When a reading was taken that is entered later: at which step, and at what time of which day."""

from __future__ import annotations

import re
from collections.abc import Iterable
from datetime import datetime, timedelta
from typing import Final

from coach.bench.entering import EntryFault, Then
from coach.bench.happened import began_at, is_taken_then, moment_of
from coach.bench.job_state import JobState
from coach.log.entries import Entry
from coach.log.kinds.done import Done
from coach.log.kinds.heat import Heat
from coach.quantities.moments import as_entered, on_the_wall, told_on_the_wall

_MOMENT: Final = re.compile(
    r"(?:(?P<day>\d{4}-\d\d-\d\d)[ T])?(?P<hour>\d{1,2}):(?P<minute>\d\d)(?::(?P<second>\d\d))?", re.ASCII
)
_WANTED: Final = "type a time of today such as 14:30, or a day and a time such as 2026-11-25 14:30"
_MINUTE: Final = timedelta(minutes=1)  # a time that is typed means the whole minute (our choice)


def taken_then(state: JobState, step: int | None, at: str, now: datetime, what: str = "reading") -> Then:
    """The step and the moment that are meant; those not said follow from the other.

    Without a number, `step` is the one in hand then. `at` is the time, as typed, by the clock on the wall; ""
    for the end of the step. `now` is the moment it is typed, with its zone; `what` was taken. Raises
    EntryFault: there is no such step or moment, or the one was not in the other.
    """
    ends = _ends(state)
    moment = _moment(at, now, _began(state)) if at else None
    if step is None:
        assert moment is not None
        hand = len(state.records) + 1
        # What goes in the fire as a step ends is heated for the next.
        at_end = what == "fire"
        step = next(
            (n for n in range(1, hand) if moment < ends[n] or (moment == ends[n] and not at_end)), hand
        )
    _check(state, step, moment, at, what)
    return _then(state, step, as_entered(moment or ends.get(step, now)))


def then_entered(state: JobState, step: int, taken_at: str, at: str, what: str = "reading") -> Then:
    """When a reading was taken, as an entry made `at` tells of it; raises EntryFault where that cannot be.

    `taken_at` is "" where it was entered at once.
    """
    here = state.step or state.records[-1].step
    if not taken_at:
        if step != here.number:
            raise EntryFault(f"A {what} of step {step} says no time, and that step is not in hand.")
        return _then(state, step, "")
    moment, entered = datetime.fromisoformat(taken_at), datetime.fromisoformat(at)
    if moment - entered > _MINUTE:
        raise EntryFault(f"The {what} taken at {taken_at} was still to come when it was entered, at {at}.")
    # Where no time was said it is the end of its step, or now, whatever a clock made of that.
    was_said = moment != _ends(state).get(step) and not (step == here.number and entered - moment < _MINUTE)
    if was_said and moment < _began(state):
        raise EntryFault(f"The job had not begun at {taken_at}.")
    _check(state, step, moment if was_said else None, taken_at, what)
    return _then(state, step, taken_at)


def ended_then(state: JobState, at: str, now: datetime) -> str:
    """When the step in hand was finished, as an entry carries it, by a time typed; raises EntryFault."""
    moment = _moment(at, now, _began(state))
    check_end(state, moment, at.strip())
    return as_entered(moment)


def noted_then(state: JobState, at: str, now: datetime) -> tuple[int, str]:
    """The step that was in hand at a time as it is typed, and its moment as an entry carries it.

    The step is 0 once every one was done. Raises EntryFault: there was no such time.
    """
    moment = _moment(at, now, _began(state))
    return _in_hand_at(state, moment), as_entered(moment)


def check_noted(state: JobState, step: int, taken_at: str, at: str) -> None:
    """Raise EntryFault where what is noted of a moment, by an entry made `at`, cannot be of that step."""
    if not taken_at:
        raise EntryFault("What is entered later must say when it was.")
    moment = datetime.fromisoformat(taken_at)
    _check_was(state, moment, taken_at, at)
    if step != _in_hand_at(state, moment):
        raise EntryFault(f"Step {step} was not in hand at {taken_at}.")


def in_hand_then(state: JobState, at: str, now: datetime, what: str) -> datetime:
    """The moment of the step in hand that a time means as it is typed; raises EntryFault where it is none.

    `what` is told of it: that which changes the metal is put no further back than into the step in hand, for
    the steps after it have been planned, and ended, without it.
    """
    moment = _moment(at, now, _began(state))
    if (step := _in_hand_at(state, moment)) != len(state.records) + 1 and state.step is not None:
        raise EntryFault(
            f"{what[:1].upper()}{what[1:]} is entered in the step in hand, and at {at.strip()} that was step "
            f"{step}, which is done: go back to it first, or leave the time out."
        )
    if state.step is None and step:
        raise EntryFault(
            f"Every step is done since {at.strip()}: go back to step {step} first, or leave the time out."
        )
    return moment


def check_in_hand(state: JobState, taken_at: str, at: str) -> None:
    """Raise EntryFault where a moment, of an entry made `at`, is not of the step in hand."""
    if not taken_at:
        raise EntryFault("What is entered later must say when it was.")
    moment = datetime.fromisoformat(taken_at)
    _check_was(state, moment, taken_at, at)
    if _in_hand_at(state, moment) != (len(state.records) + 1 if state.step is not None else 0):
        raise EntryFault(f"Another step was in hand at {taken_at}.")


def _check_was(state: JobState, moment: datetime, taken_at: str, at: str) -> None:
    if moment - datetime.fromisoformat(at) > _MINUTE:
        raise EntryFault(f"{taken_at} was still to come when it was entered, at {at}.")
    if moment < _began(state):
        raise EntryFault(f"The job had not begun at {taken_at}.")


def _in_hand_at(state: JobState, moment: datetime) -> int:
    """The step that was in hand at a moment; 0 once every one was done."""
    ends = _ends(state)
    step = next((number for number in sorted(ends) if moment <= ends[number]), len(state.records) + 1)
    return step if step <= len(state.plan.recipe.steps) else 0


def check_end(state: JobState, moment: datetime, said: str) -> None:
    """Raise EntryFault where the step in hand cannot have been finished then: something came later."""
    number = len(state.records) + 1
    if number - 1 in (ends := _ends(state)) and moment < ends[number - 1]:
        raise EntryFault(f"Step {number} had not begun at {said}: step {number - 1} was finished after that.")
    late = (
        one
        for one in state.counted.values()
        if one.body.of_step == number and is_taken_then(one) and not one.body.STANDS_APART
    )
    if any(datetime.fromisoformat(moment_of(one)) > moment for one in late):
        raise EntryFault(
            f"Step {number} was still worked after {said}, by what is entered of it: type a later time."
        )


def began_then(typed: str, now: datetime, entries: Iterable[Entry] = ()) -> str:
    """When a job was begun, as an entry carries it, by a time typed.

    `entries` are what is entered for it already, as they count. Raises EntryFault: it is no time, it is still
    to come, or something was taken before it.
    """
    moment = _moment(typed, now, None)
    check_began(moment, typed.strip(), entries)
    return as_entered(moment)


def check_began(moment: datetime, said: str, entries: Iterable[Entry]) -> None:
    """Raise EntryFault where a job of these entries cannot have been begun at a moment."""
    for one in entries:
        told = one.body.BEGINS or is_taken_then(one) or isinstance(one.body, Heat | Done)
        if told and datetime.fromisoformat(moment_of(one)) < moment - _MINUTE:
            at = told_on_the_wall(moment_of(one))
            raise EntryFault(f"The job was begun by {said} already: entry {one.number} is of {at}.")


def _then(state: JobState, step: int, taken_at: str) -> Then:
    return Then(state.plan.recipe.steps[step - 1], state.course_of(step), taken_at)


def _began(state: JobState) -> datetime:
    return datetime.fromisoformat(began_at(state.counted.values()))


def _ends(state: JobState) -> dict[int, datetime]:
    return {
        entry.body.step: datetime.fromisoformat(moment_of(entry))
        for entry in state.counted.values()
        if isinstance(entry.body, Done)
    }


def _check(state: JobState, step: int, moment: datetime | None, said: str, what: str) -> None:
    """Raise EntryFault where there is no such step as yet, or where the moment was not in it."""
    ends, most = _ends(state), min(len(state.records) + 1, len(state.plan.recipe.steps))
    if not 1 <= step <= most:
        raise EntryFault(f"A {what} may be of step 1 to {most} as yet, not of step {step}.")
    if moment is not None and step in ends and moment > ends[step]:
        raise EntryFault(f"Step {step} was finished before {said}: leave its number out, or the time.")
    if moment is not None and step - 1 in ends and moment < ends[step - 1]:
        raise EntryFault(f"Step {step} had not begun at {said}: leave its number out, or the time.")


def _moment(typed: str, now: datetime, began: datetime | None) -> datetime:
    """The moment meant by a time typed; a day that is not said is today."""
    found = _MOMENT.fullmatch(typed.strip())
    if found is None:
        raise EntryFault(f"{typed[:30]!r} is no time: {_WANTED}.")
    here = on_the_wall(now)
    try:
        day = datetime.fromisoformat(found["day"] or f"{here:%Y-%m-%d}")
        start = day.replace(hour=int(found["hour"]), minute=int(found["minute"]))
        start = on_the_wall(start.replace(second=int(found["second"] or 0)))
    except (ValueError, OverflowError):
        raise EntryFault(f"{typed[:30]!r} is not in the calendar or on the clock: {_WANTED}.") from None
    # The whole minute is meant, or the whole second where one is said: what was entered in it came before.
    meant = start.replace(microsecond=999_999) if found["second"] else start.replace(second=59)
    if start > here:
        raise EntryFault(f"{typed.strip()} is still to come: {_WANTED}.")
    if began is not None and meant < began:
        first = on_the_wall(began)
        told = f"{first:%H:%M}" if first.date() == here.date() else f"{first:%Y-%m-%d %H:%M}"
        raise EntryFault(
            f"The job had not begun at {typed.strip()}: it began at {told}; type a time since then, or none, "
            "or say first when it was begun."
        )
    return min(meant, here)
