"""Where the piece is, by the clock: out of the fire and cooling, or in it and soaking."""

from __future__ import annotations

from collections.abc import Sequence
from enum import StrEnum
from math import ceil
from typing import NamedTuple

from coach.bench.fire_clock import seconds_between
from coach.bench.job_state import JobState
from coach.ledger.course import Mark, ReadingMark
from coach.ledger.hot_work import MOST_MINUTES, hot_work, soak_minutes
from coach.ledger.sent_back import short_of_soak
from coach.operations.does import HeatKind
from coach.quantities.figure import Figure, celsius, seconds
from coach.quantities.words import NOTHING, Words, say
from coach.recipe.model import Step

#: A longer absence from the fire is no heat in hand any more (judgement).
_LONGEST_OUT_S = 1800.0


class Place(StrEnum):
    """Where the piece was when it was last said."""

    OUT = "out of the fire"
    IN = "in the fire"


class HeatClock(NamedTuple):
    """The heat in hand, since its clock was started."""

    place: Place
    since: str  # when that was said: ISO 8601 UTC
    start: Figure  # as it leaves the fire
    stop: Figure  # back to the fire at this
    working: Figure | None  # how long it can be worked; None where it cannot be told
    cooling: tuple[tuple[float, float], ...]  # seconds out of the fire, and its surface in °C
    soak: Figure | None  # until its middle has the heat; None out of the fire
    read_cold: bool = False  # a size was read on cold metal once the time to work it was over

    @property
    def soak_told(self) -> Figure | None:
        """The soak in whole minutes or tens of seconds, rounded up: too long harms less than too short."""
        if self.soak is None:
            return None
        step_s = 60.0 if self.soak.value > 60.0 else 10.0
        return seconds(max(ceil(self.soak.value / step_s), 1) * step_s)


def clock_of(state: JobState) -> HeatClock | None:
    """The clock of the heat in hand; None when nothing was said of the fire, or the step has none."""
    step = state.step
    if step is None or not (state.in_at or (state.out_at and state.heats)):
        return None
    hot = hot_work(state.plan, step)
    if hot is None:
        # A treatment is not worked against the clock, but how long the piece lies in the fire counts.
        if not state.in_at or step.temperature_c is None:
            return None
        heat = celsius(step.temperature_c)
        return HeatClock(Place.IN, state.in_at, heat, heat, None, (), None)
    cooling = tuple((p.seconds, p.surface_c) for p in hot.curve.points) if hot.curve is not None else ()
    minutes = None
    if state.in_at:
        from_c = 20.0
        if state.out_at and hot.curve is not None:
            away = seconds_between(state.out_at, state.in_at)
            if away < _LONGEST_OUT_S:
                from_c = hot.curve.at(away).middle_c
        # To the nearest fifty degrees, so that few are reckoned (our choice).
        minutes = soak_minutes(hot.section, hot.start_c, 50.0 * round(from_c / 50.0))
    return HeatClock(
        place=Place.IN if state.in_at else Place.OUT,
        since=state.in_at or state.out_at,
        start=celsius(hot.start_c),
        stop=celsius(hot.stop_c),
        working=hot.working,
        cooling=cooling,
        soak=None if minutes is None else seconds(60.0 * minutes),
        read_cold=not state.in_at and _is_read_cold(state, hot.working),
    )


def _is_read_cold(state: JobState, working: Figure | None) -> bool:
    """Whether a size was read cold since the piece came out, when it could no longer be worked.

    While it could, a size that is entered as cold may be one of hot metal that nobody said so of.
    """
    over_s = working.value if working is not None else 0.0
    read = (one for one in state.marks if isinstance(one, ReadingMark) and one.reading.hot_c is None)
    entered = (state.counted[one.entry].at for one in read if one.entry in state.counted)
    return any(seconds_between(state.out_at, at) > over_s for at in entered if at > state.out_at)


def lay_too_long(went_in: str, came_out: str) -> Words:
    """What is said of a heat that by the clock lay longer in the fire than anybody means it to; else nothing.

    Both are moments in ISO 8601 UTC; `went_in` is "" where it was not said.
    """
    lay = lay_for(went_in, came_out)
    if lay is None:
        return NOTHING
    return say(
        "; by the clock it lay {} in the fire, of which {} at most count as hot: if it did not, strike out "
        "its going in, and if it did, brush it and measure what the scale has left",
        lay,
        seconds(60.0 * MOST_MINUTES),
    )


def lay_for(went_in: str, came_out: str) -> Figure | None:
    """How long it lay, where that is longer than anybody means it to; else None."""
    lay_s = seconds_between(went_in, came_out) if went_in else 0.0
    return seconds(lay_s) if lay_s > 60.0 * MOST_MINUTES else None


def of_no_heat(step: Step) -> Words:
    """What is said of a heat marked at a step that is done cold: it may well be another step's."""
    if step.heat_kind is not HeatKind.COLD or step.heats:
        return NOTHING
    needs = "no fire" if step.temperature_c is None else "no forge fire, only its own low heat"
    return say(
        "; step {} needs {}: if the heat was of another step, strike it out and mark it at that one",
        step.number,
        needs,
    )


def lay_too_short(step: Step, marks: Sequence[Mark]) -> Words:
    """What is said of a heat to quench from that by the clock lay shorter in the fire than it is to soak."""
    short, soak = short_of_soak(step, marks), step.targets.get("soak")
    if short is None or short.lay_s is None or soak is None:
        return NOTHING
    return say(
        "; by the clock it lay {} in the fire, and is to soak {} once it is hot: back in with it, unless it "
        "soaked before that",
        seconds(short.lay_s),
        seconds(soak.low),
    )
