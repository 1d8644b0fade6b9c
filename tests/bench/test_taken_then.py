"""Readings that are entered later count at the step and the time that they were taken at."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from datetime import UTC, datetime, timedelta

import pytest

from coach.bench.entering import EntryFault
from coach.bench.session import Session
from coach.bench.shop import Shop
from coach.telling.clock import moment
from coach.telling.history import history_row
from coach.telling.writing import Shown
from tests.bench.jobs import begun
from tests.bench.test_what_readings_mean import PEG
from tests.spelt_out import file_text
from tests.told import entry_text, said

#: Noon by the clock on the wall of whoever runs the test; entries are ten minutes apart.
_NOON = datetime(2026, 3, 2, 12, 0).astimezone()


def _clock() -> Callable[[], datetime]:
    def moments() -> Iterator[datetime]:
        at = _NOON
        while True:
            yield at.astimezone(UTC)
            at += timedelta(minutes=10)

    clock = moments()
    return lambda: next(clock)


def a_day() -> Session:
    """Begun at 12:00; heats at 12:10 and 12:20, the point done at 12:30, a heat of the shank at 12:40."""
    session = Shop(":memory:", _clock()).begin(file_text(PEG), "peg.yaml")
    session.heat()
    session.heat()
    session.done()
    session.heat()
    return session


def in_time() -> Session:
    session = Shop(":memory:", _clock()).begin(file_text(PEG), "peg.yaml")
    session.heat()
    session.heat()
    session.read("point.side", "8.3")
    session.read("point.length", "84")
    session.done()
    session.heat()
    return session


@pytest.mark.parametrize(
    ("said_at", "step"), [("12:30:00", 2), ("12:30:01", 2), ("12:29:59", 1), ("12:30", 2)]
)
def test_a_time_may_be_told_to_the_second(said_at: str, step: int) -> None:
    # The point was done at 12:30:00. As with a minute, what was entered in that second came before.
    assert a_day().then(at=f"2026-03-02 {said_at}").step.number == step


@pytest.mark.parametrize("at", ["12:30:60", "12:30:7", "12:30:", "12:30:07.5"])
def test_what_is_no_second_is_refused_with_what_to_type(at: str) -> None:
    with pytest.raises(EntryFault, match="such as 14:30"):
        a_day().then(at=at)


def test_paper_notes_typed_in_the_evening_count_as_if_they_had_been_typed_then() -> None:
    session = a_day()
    for name, size in (("point.side", "8.3"), ("point.length", "84")):
        answer = session.read(name, size, then=session.then(step=1))
        assert size in said(answer)
    now, then = session.standing(), in_time().standing()
    assert now.chance == pytest.approx(then.chance)
    assert [one.expected.value for one in now.sizes] == pytest.approx(
        [one.expected.value for one in then.sizes]
    )
    assert [one.verdicts for one in now.done] == [one.verdicts for one in then.done]
    assert now.step == then.step, "the step in hand stays in hand"


def test_a_time_finds_its_step_and_its_place_between_the_heats() -> None:
    session = a_day()
    session.read("point.side", "10", then=session.then(at="12:15"))
    between = session.standing()
    assert session.history()[-1].reading is not None
    # Read before the second heat, it says what the point was on its way, not what it is now.
    assert {one.name: one.expected.value for one in between.sizes}["point.side"] == pytest.approx(
        8.0, abs=0.3
    )
    with pytest.raises(EntryFault, match="has no 'nothing' at this step"):
        session.read("point.nothing", "10", then=session.then(at="12:15"))


def test_it_is_struck_out_like_any_other_and_outlives_going_back() -> None:
    session = a_day()
    before = session.standing()
    session.read("point.side", "8.3", then=session.then(step=1))
    assert session.standing().sizes != before.sizes
    session.strike()
    assert session.standing().sizes == before.sizes


@pytest.mark.parametrize(
    ("step", "at", "why"),
    [
        (3, "", "may be of step 1 to 2 as yet, not of step 3"),
        (0, "", "not of step 0"),
        (None, "noon", "'noon' is no time: type a time of today such as 14:30"),
        (None, "25:10", "is not in the calendar or on the clock"),
        (None, "23:55", "is still to come"),
        (
            None,
            "2026-03-01 12:00",
            "The job had not begun at 2026-03-01 12:00: it began at 12:00; type a time since",
        ),
        (1, "12:45", "Step 1 was finished before 12:45"),
        (2, "12:20", "Step 2 had not begun at 12:20"),
    ],
)
def test_a_step_or_a_time_that_cannot_be_meant_is_refused(step: int | None, at: str, why: str) -> None:
    session = a_day()
    with pytest.raises(EntryFault, match=why):
        session.read("point.side", "8", then=session.then(step=step, at=at))
    assert "reading" not in [entry.kind for entry in session.history()]
    assert entry_text(session.history()[-1]) == "heat"


def test_the_answer_is_to_the_reading_that_was_entered_late() -> None:
    session = a_day()
    session.read("point.side", "8.1", then=session.then(step=1))
    answer = session.read("point.side", "9.4", then=session.then(at="12:15"))
    assert "9.4 mm" in said(answer)
    late = session.history()[-1]
    assert "taken at step 1" in entry_text(late)
    assert late.reading is not None
    assert history_row(late, Shown()).cells[-1].endswith(f"({moment(late.reading.taken_at)})")


TWICE_DRAWN = """
title: Pin
pieces:
  bar: {metal: mild steel, stock: {form: square, side: 20}, zones: [pin, head]}
drawing:
  pin: {form: square, side: 10 ±0.5, length: 100 ±20}
  head: {form: square, side: 16 ±0.5, length: 30 ±10}
steps:
  - {do: draw, zone: pin, to: {side: 14 ±0.5}, heats: 2}
  - {do: draw, zone: head, to: {side: 16 ±0.5}, heats: 2}
  - {do: draw, zone: pin, to: {side: 10 ±0.5}, heats: 2}
"""


@pytest.mark.parametrize(
    ("step", "name", "size", "told"),
    [
        (2, "head.side", "17.5", "out, 1 mm over the 16.5 mm allowed"),  # nothing works it any more
        (1, "pin.side", "15.5", "more to go"),  # the next step draws it further
    ],
)
def test_no_heats_are_still_to_come_in_a_step_that_is_done(
    step: int, name: str, size: str, told: str
) -> None:
    session = begun(TWICE_DRAWN)
    session.done()
    session.done()
    answer = said(session.read(name, size, insist=True, then=session.then(step)))
    assert told in answer
    assert "more heat" not in answer
