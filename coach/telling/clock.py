"""The clock of the heat in hand, as it is told."""

from __future__ import annotations

from typing import TYPE_CHECKING

from coach.quantities.words import NOTHING, Words, say
from coach.telling.moments import time_of_day

if TYPE_CHECKING:
    from coach.bench.clock import HeatClock


def soak_words(clock: HeatClock) -> Words:
    """`through in about 3 min`; nothing out of the fire."""
    return say("through in about {} min", clock.soak_minutes) if clock.soak is not None else NOTHING


def clock_words(clock: HeatClock) -> Words:
    """Where the piece was when it was last said, and since when."""
    since = say("{} since {}", clock.place, time_of_day(clock.since))
    soak = soak_words(clock)
    return say("{}, {}", since, soak) if soak else since
