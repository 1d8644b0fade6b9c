"""What the shop says of one job: few words each, to be read from the anvil or in one row of a list."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from coach.bench.clock import Place
from coach.bench.in_turn import is_too_hot_to_quench, next_to_read
from coach.bench.resting import StartingSize
from coach.bench.standing import Standing
from coach.forms import label, listed
from coach.log.status import JobStatus
from coach.quantities.words import counted
from coach.telling.clock import ago, ago_words, moment, seconds_ago
from coach.telling.figures import write_figure
from coach.telling.standing import wanted_text
from coach.telling.why import chance_beside
from coach.telling.words import write
from coach.telling.writing import Shown


class Glance(NamedTuple):
    """A job in the units asked for; what does not apply is empty."""

    verdict: str  # on plan, tight, off plan
    chance: str  # in whole per cent; "" where something else than the metal holds it back
    first: str  # what to read first
    fix: str  # what is to be put right
    still_open: str  # what keeps it from being left, or waits to be read again
    fire: str  # where the piece was when it was last said
    fire_since: str  # when that was
    trouble: str  # why it cannot be reckoned
    do_now: str = ""  # what may not wait, in two words; "" where it may lie


def glance(standing: Standing, first: Sequence[StartingSize], shown: Shown) -> Glance:
    """One job; `first` are the sizes to measure before the first heat."""
    clock = standing.clock
    return Glance(
        verdict=standing.verdict.value,
        chance=chance_beside(standing.verdict, standing.chance),
        first=_to_read(standing, first, shown) if standing.step is not None else "",
        fix=_to_put_right(standing, shown),
        still_open=_open(standing, shown),
        fire=clock.place.value if clock is not None else "",
        fire_since=clock.since if clock is not None else "",
        trouble=write(standing.trouble, shown),
        do_now="do not quench" if is_too_hot_to_quench(standing) else standing.do_now,
    )


def _to_read(standing: Standing, first: Sequence[StartingSize], shown: Shown) -> str:
    """What is next to be read, as the bench asks for it; of a job that was put down, what it starts from."""
    if standing.questioned:
        return f"read {standing.questioned[0].label} again"
    lay = standing.state is JobStatus.RESTING and not standing.heats
    check = next_to_read(standing)
    if first and (check is None or lay):  # cold since it was put down: the best there is to measure
        return _start_size(first[0], shown)
    return f"read {wanted_text(check, shown)}" if check is not None else ""


def _start_size(size: StartingSize, shown: Shown) -> str:
    return f"read {label(size.zone, size.dimension)}, about {write_figure(size.now, shown)}"


def _to_put_right(standing: Standing, shown: Shown) -> str:
    if not standing.to_right:
        return ""
    more = len(standing.to_right) - 1
    told = write(standing.to_right[0].words, shown)
    return f"{told}, and {more} more" if more else told


def _open(standing: Standing, shown: Shown) -> str:
    if standing.rest_reason:
        return write(standing.rest_reason, shown)
    if standing.questioned:
        return f"{counted(len(standing.questioned), 'reading')} to take again"
    return f"{listed(standing.given_up)} given up" if standing.given_up else ""


#: A piece that was last worked so long ago is cold right through (common practice, no source).
_COLD_AFTER_S = 3 * 3600.0


def last_worked(state: JobStatus, worked_at: str, told: Glance | None, now: str) -> str:
    """How long ago a job was put down, whether its metal is cold, and whether anything was left open."""
    when = ago_words(worked_at, now)
    if when == "today":
        when = f"today at {moment(worked_at, '%H:%M')}"
    told_open = told.still_open if told is not None else ""
    if state is JobStatus.RESTING:
        cold = ", cold" if seconds_ago(worked_at, now) > _COLD_AFTER_S else ""
        return f"{when}{cold}, {told_open or 'nothing open'}"
    if state is not JobStatus.UNDER_WAY:
        return f"{state} {when}"
    where = (in_the_fire(told, now) if told is not None else "") or when
    return ", ".join(part for part in (where, told_open) if part)


def in_the_fire(told: Glance, now: str) -> str:
    """That the piece is in the fire and since when, where that was said today; else nothing."""
    if told.fire != Place.IN or ago(told.fire_since, now) != "today":
        return ""
    return f"{Place.IN} since {moment(told.fire_since, '%H:%M')}"
