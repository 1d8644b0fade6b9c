"""Moments of the log as the clock on the wall showed them, and the clock of the heat in hand."""

from __future__ import annotations

from datetime import datetime
from typing import TYPE_CHECKING, Final

from coach.quantities.words import NOTHING, Words, say

if TYPE_CHECKING:
    from coach.bench.clock import HeatClock


_TIME_OF_DAY: Final = "%H:%M:%S"


def moment(at: str, how: str = "%Y-%m-%d %H:%M") -> str:
    """A day and a time, `2026-11-25 09:30`, or however it is to be told; "" for none."""
    return f"{datetime.fromisoformat(at).astimezone():{how}}" if at else ""


def soak_words(clock: HeatClock) -> Words:
    """`through in about 3 min`; nothing out of the fire."""
    return say("through in about {} min", clock.soak_minutes) if clock.soak is not None else NOTHING


def clock_words(clock: HeatClock) -> Words:
    """Where the piece was when it was last said, and since when."""
    since = say("{} since {}", clock.place, moment(clock.since, _TIME_OF_DAY))
    soak = soak_words(clock)
    return say("{}, {}", since, soak) if soak else since
