"""When a reading was taken that is entered later: at which step, and at what time of which day."""

from __future__ import annotations

import re
from datetime import datetime
from typing import Final

from coach.bench.entering import EntryFault, Then
from coach.bench.in_hand import as_entered
from coach.bench.replay import JobState
from coach.log.kinds.done import Done
from coach.quantities.moments import on_the_wall

_MOMENT: Final = re.compile(r"(?:(?P<day>\d{4}-\d\d-\d\d)[ T])?(?P<hour>\d{1,2}):(?P<minute>\d\d)", re.ASCII)
_WANTED: Final = "type a time of today such as 14:30, or a day and a time such as 2026-11-25 14:30"


def taken_then(state: JobState, step: int | None, at: str, now: datetime) -> Then:
    """The step and the moment that are meant; those not said follow from the other.

    Without a number, `step` is the one in hand then. `at` is the time, as typed, by the clock on the wall; ""
    for the end of the step. `now` is the moment it is typed, with its zone. Raises EntryFault: there is no
    such step or moment, or the one was not in the other.
    """
    hand = len(state.records) + 1
    ends = {
        entry.body.step: datetime.fromisoformat(entry.at)
        for entry in state.counted.values()
        if isinstance(entry.body, Done)
    }
    moment = _moment(at, now, datetime.fromisoformat(state.counted[1].at)) if at else None
    if step is None:
        assert moment is not None
        step = next((number for number in range(1, hand) if moment <= ends[number]), hand)
    steps = state.plan.recipe.steps
    if not 1 <= step <= min(hand, len(steps)):
        raise EntryFault(f"A reading may be of step 1 to {min(hand, len(steps))} as yet, not of step {step}.")
    if moment is None:
        moment = ends.get(step, now)
    elif step in ends and moment > ends[step]:
        raise EntryFault(f"Step {step} was finished before {at}: leave its number out, or the time.")
    elif step - 1 in ends and moment < ends[step - 1]:
        raise EntryFault(f"Step {step} had not begun at {at}: leave its number out, or the time.")
    course = state.course_of(step)
    return Then(steps[step - 1], course, as_entered(moment))


def _moment(typed: str, now: datetime, began: datetime) -> datetime:
    """The moment meant by a time typed; a day that is not said is today."""
    found = _MOMENT.fullmatch(typed.strip())
    if found is None:
        raise EntryFault(f"{typed[:30]!r} is no time: {_WANTED}.")
    here = on_the_wall(now)
    try:
        day = datetime.fromisoformat(found["day"] or f"{here:%Y-%m-%d}")
        # The whole minute is meant: what was entered in it came before.
        meant = on_the_wall(day.replace(hour=int(found["hour"]), minute=int(found["minute"]), second=59))
    except (ValueError, OverflowError):
        raise EntryFault(f"{typed[:30]!r} is not in the calendar or on the clock: {_WANTED}.") from None
    if meant.replace(second=0) > here:
        raise EntryFault(f"{typed.strip()} is still to come: {_WANTED}.")
    if meant < began:
        raise EntryFault(f"The job had not begun at {typed.strip()}: {_WANTED}.")
    return min(meant, here)
