"""Moments of the log as the clock on the wall showed them, and the clock of the heat in hand."""

from __future__ import annotations

from datetime import datetime
from typing import TYPE_CHECKING, Final

from coach.quantities.moments import on_the_wall
from coach.quantities.words import NOTHING, Words, say

if TYPE_CHECKING:
    from coach.bench.clock import HeatClock


#: What is told is kept for whenever it is asked again: with its day it is so then too.
_TO_THE_SECOND: Final = "%Y-%m-%d %H:%M:%S"
_LONG_AGO_DAYS: Final = 60  # from here on the date says more


def moment(at: str, how: str = "%Y-%m-%d %H:%M") -> str:
    """A day and a time, `2026-11-25 09:30`, or however it is to be told; "" for none."""
    return f"{on_the_wall(datetime.fromisoformat(at)):{how}}" if at else ""


def ago(at: str, now: str) -> str:
    """How long ago by the days of the wall's calendar, for a column: `today`, `yesterday`, `3 days`, a date.

    >>> at = "2026-03-02T12:00:00Z"
    >>> ago(at, at), ago(at, "2026-03-05T12:00:00Z"), ago(at, "2026-09-05T12:00:00Z"), ago("", at)
    ('today', '3 days', '2026-03-02', '')
    """
    if not at:
        return ""
    days = _days_between(at, now)
    if days >= _LONG_AGO_DAYS:
        return moment(at, "%Y-%m-%d")
    return "today" if days <= 0 else "yesterday" if days == 1 else f"{days} days"


def ago_words(at: str, now: str) -> str:
    """The same within a sentence.

    >>> at = "2026-03-02T12:00:00Z"
    >>> ago_words(at, at), ago_words(at, "2026-03-05T12:00:00Z"), ago_words(at, "2026-09-05T12:00:00Z")
    ('today', '3 days ago', 'on 2026-03-02')
    """
    told = ago(at, now)
    return f"{told} ago" if told.endswith(" days") else f"on {told}" if told[:1].isdigit() else told


def since_when(at: str, now: str) -> str:
    """Since when something is so: the hour alone today, else with its day.

    >>> since_when("2026-03-02T22:17:00Z", "2026-03-02T23:00:00Z")[-2:]
    '17'
    >>> since_when("2026-03-02T12:00:00Z", "2026-03-03T12:00:00Z").split()[0]
    'yesterday'
    """
    days = _days_between(at, now)
    if days <= 0:
        return moment(at, "%H:%M")
    return f"yesterday {moment(at, '%H:%M')}" if days == 1 else moment(at)


def seconds_ago(at: str, now: str) -> float:
    """Seconds since a moment; 0 for none, and where a clock was put back."""
    if not at:
        return 0.0
    return max(0.0, (datetime.fromisoformat(now) - datetime.fromisoformat(at)).total_seconds())


def _days_between(at: str, now: str) -> int:
    then, today = (on_the_wall(datetime.fromisoformat(one)).date() for one in (at, now))
    return (today - then).days


def soak_words(clock: HeatClock) -> Words:
    """`through in about 3 min`; nothing out of the fire."""
    soak = clock.soak_told
    return say("through in about {}", soak) if soak is not None else NOTHING


def clock_words(clock: HeatClock) -> Words:
    """Where the piece was when it was last said, and since when."""
    since = say("{} since {}", clock.place, moment(clock.since, _TO_THE_SECOND))
    soak = clock.soak_told
    return since if soak is None else say("{}, through about {} after that", since, soak)
