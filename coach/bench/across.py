"""Several jobs at one fire: which is in it, since when, which is out, and what to take on next."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from enum import StrEnum
from typing import TYPE_CHECKING, NamedTuple

from coach.bench.clock import Place
from coach.bench.fire_clock import seconds_between
from coach.bench.left_hard import TEMPERED_WITHIN_H
from coach.bench.righting import is_crack
from coach.bench.wrong_bath import LOOK_FOR_A_CRACK
from coach.log.status import JobStatus
from coach.operations.does import HeatKind
from coach.quantities.figure import Figure, celsius
from coach.quantities.refusal import Refusal
from coach.quantities.words import Words, say

if TYPE_CHECKING:
    from coach.bench.glance import JobSummary
    from coach.bench.session import Session
    from coach.bench.standing import Standing
    from coach.bench.time_ahead import TimeAhead

#: So many are looked at, those first that were last touched (our choice).
_MOST_JOBS = 20


class Turn(StrEnum):
    """Why a job's turn is where it is, the first first."""

    MUST = "must not wait"
    IN_FIRE = "lies in the fire"
    OUT = "is out of the fire"
    FIRE = "goes to the fire next"
    COLD = "is worked cold next"


class JobAhead(NamedTuple):
    """One job in hand among those at the fire."""

    job: str
    title: str
    step: int
    steps: int
    step_title: str
    turn: Turn
    since: str  # when it was said that it is in the fire or out of it, or was quenched; "" where none is so
    heat: Figure | None  # that its step is heated to
    why: Words  # why it may not be put down; nothing where it may
    ahead: TimeAhead  # the rest of it
    now: str  # the moment at which this is told: ISO 8601, UTC


def across(
    jobs: Iterable[JobSummary], opened: Callable[[str], Session], by: str = "", but: str = ""
) -> tuple[JobAhead, ...]:
    """The jobs in hand but one, that first which is to be taken on next.

    What must not wait comes first, even where it rests or is set aside, unless it is known to be cracked;
    then what lies in the fire, the longest in it first, then what was taken out of it, the heat going; then
    what goes to the fire next, and last what is worked cold. Raises EntryFault for an hour that cannot be
    read.
    """
    others = [one for one in jobs if one.job != but]
    in_hand = [one for one in others if one.state in (JobStatus.UNDER_WAY, JobStatus.RESTING)]
    aside = [one for one in others if one.state is JobStatus.SET_ASIDE]
    found = []
    for one in (*in_hand[:_MOST_JOBS], *aside[:_MOST_JOBS]):
        try:
            session = opened(one.job)
            standing = session.standing()
        except Refusal:
            continue  # the list of jobs says what is wrong with it
        if standing.step is not None and (one.state is not JobStatus.SET_ASIDE or _must_not_lie(standing)):
            found.append(_ahead(session, by))
    return tuple(sorted(found, key=lambda one: (list(Turn).index(one.turn), one.since or "~")))


def _must_not_lie(standing: Standing) -> bool:
    """Whether a piece that was set aside must be gone on with first; what is cracked need not be."""
    cracked = any(is_crack(one) for one in standing.to_right)
    return bool(standing.rest_reason) and not cracked


def _ahead(session: Session, by: str) -> JobAhead:
    standing, ahead = session.standing(), session.ahead(by)
    assert standing.step is not None
    number = standing.step.number
    step, clock = session.recipe.steps[number - 1], standing.clock
    heat = None if step.temperature_c is None else celsius(step.temperature_c)
    resting = standing.state is JobStatus.RESTING
    if standing.rest_reason:
        turn = Turn.MUST
    elif clock is not None and not resting:
        turn = Turn.IN_FIRE if clock.place is Place.IN else Turn.OUT
    elif step.heats and step.heat_kind is not HeatKind.COLD:
        turn = Turn.FIRE
    else:
        turn = Turn.COLD
    since = clock.since if clock is not None and not resting else ""
    why, hard = standing.rest_reason, session.hard_since
    if turn is Turn.MUST and hard:
        since = since or hard
        if seconds_between(hard, session.now) >= 3600.0 * TEMPERED_WITHIN_H:
            hours = f"{seconds_between(hard, session.now) / 3600.0:.0f}"
            why = say("{} It has lain hard for {} h: {} before it is tempered.", why, hours, LOOK_FOR_A_CRACK)
    return JobAhead(
        job=session.job,
        title=session.recipe.title,
        step=number,
        steps=len(session.recipe.steps),
        step_title=step.title,
        turn=turn,
        since=since,
        heat=heat,
        why=why,
        ahead=ahead,
        now=session.now,
    )
