"""Jobs for the tests of the bench, begun in a shop of their own."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from datetime import UTC, datetime, timedelta
from functools import cache
from pathlib import Path
from typing import NamedTuple
from unittest.mock import patch

from coach.bench.beginnings import Plans
from coach.bench.job_state import JobState
from coach.bench.replay import replay
from coach.bench.session import Session
from coach.bench.shop import Shop
from coach.log.carry import export_job, import_job
from coach.places import bundled_recipes
from tests.spelt_out import file_text

FIRST = datetime(2026, 3, 2, 8, 0, tzinfo=UTC)
#: A recipe is planned once for all the shops of the tests: that is half of what a job costs to open.
_PLANS = Plans()


def ticking(first: datetime = FIRST) -> Callable[[], datetime]:
    """A clock that moves on by a minute each time it is looked at."""

    def minutes() -> Iterator[datetime]:
        at = first
        while True:
            yield at
            at += timedelta(minutes=1)

    clock = minutes()
    return lambda: next(clock)


def shop(path: Path | str = ":memory:") -> Shop:
    """A shop with a clock of its own."""
    return _with_plans(Shop(path, ticking()))


def _with_plans(at: Shop) -> Shop:
    at.plans = _PLANS
    return at


def begun(text: str, at: Shop | None = None, name: str | None = None) -> Session:
    """A job begun from a recipe's text."""
    return (at or shop()).begin(file_text(text), "test.yaml", name)


def at_step_of(name: str, number: int) -> Session:
    """A job by a recipe that comes with the coach, with that step in hand: no heat and no size is entered.

    Its last step is done where it has fewer. To work off the steps before takes most of the time of such a
    test, so each of them is worked off once.
    """
    kept = _worked_off(name)
    while len(kept) < number:
        at, job = _taken_up(kept[-1])
        if job.standing().step is None:
            break
        job.done()
        kept.append(_carried(at, job))
    return _taken_up(kept[max(min(number, len(kept)), 1) - 1])[1]


class _Carried(NamedTuple):
    """A job as it is carried, the moment of its last entry, and what its entries lead to."""

    text: str
    last_at: str
    state: JobState


@cache
def _worked_off(name: str) -> list[_Carried]:
    """A job with no step done, one, and so on."""
    path = bundled_recipes() / f"{name}.yaml"
    at = shop()
    return [_carried(at, at.begin(path.read_text(encoding="utf-8"), path.name, None))]


def _carried(at: Shop, job: Session) -> _Carried:
    text = export_job(at.log, job.job)
    return _Carried(text, job.history()[-1].at, replay(job._first_plan, job._entries))


def _taken_up(kept: _Carried) -> tuple[Shop, Session]:
    at = _with_plans(Shop(":memory:", ticking(datetime.fromisoformat(kept.last_at) + timedelta(minutes=1))))
    name = import_job(at.log, kept.text)
    # What its entries lead to is known: an entry more makes a state of its own of it, as in any job.
    with patch("coach.bench.in_hand.replay", lambda plan, entries: kept.state):
        return at, at.open(name)


#: A poll is drawn, its eye punched and drifted, its face welded on, then hardened, tempered, ground.
HAMMER = """
title: Hand hammer
pieces:
  body:
    metal: wrought iron
    stock: {form: square, side: 36}
    zones: [poll, eye]
  face: {metal: C80, stock: {form: flat, width: 36, thickness: 14}}
drawing:
  poll: {form: square, side: 34 ±1, length: 50 ±4}
  eye:
    form: eyed
    hole: oval
    thickness: 34 ±1
    length: 44 ±2
    width: 42 ±3
    hole length: 28 ±1
    hole width: 17 ±0.8
    take up: width
  face: {form: flat, width: 36 ±1, thickness: 12 ±0.8, length: 36 ±3, take up: length}
steps:
  - {do: mark out, piece: body, check: [poll.length, eye.length]}
  - {do: draw, zone: poll, to: {side: 34 ±1}, heats: 2, colour: light yellow, check: [side, length]}
  - do: punch
    zone: eye
    hole: slot
    to: {hole length: 26, hole width: 9, thickness: 35, length: 44}
    slug: 6 mm
    heats: 3
    temperature: 1100 C
  - {do: drift, zone: eye, to: drawing, heats: 2, check: [hole length, hole width, width]}
  - {do: draw, zone: face, to: drawing, heats: 1}
  - {do: tack, zone: poll, heated: [poll, face], heats: 1, colour: white}
  - {do: weld, zone: poll, lay: face, to: {side: 35 ±1.5}, heats: 2, colour: white}
  - {do: draw, zone: poll, to: drawing, heats: 1}
  - {do: normalise, zone: poll, heated: [poll, eye], heats: 2, rest: no}
  - {do: harden, zone: poll, heats: 1}
  - {do: temper, zone: poll}
  - {do: inspect, zone: poll, check: [side, length]}
"""


def at_step(number: int) -> Session:
    """The hammer with that step in hand."""
    session = begun(HAMMER)
    for _ in range(number - 1):
        session.done()
    return session


def in_hand(session: Session) -> int:
    """The number of the step in hand; 0 when all are done."""
    step = session.standing().step
    return 0 if step is None else step.number
