"""Heats that nobody marked when they were taken are entered later, each for its step and its hour."""

from __future__ import annotations

import pytest

from coach.bench.answer import Answer
from coach.bench.entering import EntryFault
from coach.bench.session import Session
from coach.log.kinds.late_heat import LateHeat
from coach.quantities.words import Words
from coach.telling.words import write
from tests.bench.jobs import HAMMER, begun


def drawing() -> Session:
    """The hammer at step 2, where its poll is drawn: two heats are planned."""
    session = begun(HAMMER)
    session.done()
    return session


def heats(session: Session, step: int) -> int:
    return session._state.records[step - 1].heats


def test_a_forgotten_heat_of_the_step_in_hand_counts() -> None:
    session = drawing()
    session.heat()
    session.heat_then(step=2)
    assert session.standing().heats == 2


def test_a_forgotten_heat_of_a_finished_step_is_one_more_than_those_that_were_marked() -> None:
    session = drawing()
    session.heat()
    session.done()
    session.heat_then(step=2)
    assert heats(session, 2) == 2
    session.strike()
    assert heats(session, 2) == 1


def test_it_is_one_more_than_what_was_told_and_stands_in_the_place_of_what_was_taken_for_granted() -> None:
    told = drawing()
    told.done(heats=3)
    told.heat_then(step=2)
    assert heats(told, 2) == 4
    granted = drawing()
    granted.done()
    for _ in range(3):
        granted.heat_then(step=2)
    assert heats(granted, 2) == 3


def test_of_a_day_on_paper_a_step_took_what_was_told_when_it_ended_and_not_what_was_put_down_of_it() -> None:
    """One of two planned heats is put down with its hour, then the end, which says that it took two."""
    session = drawing()
    session.heat_then(step=2)
    session.done(heats=2)
    assert heats(session, 2) == 2
    session.heat_then(step=2)
    assert heats(session, 2) == 3


def test_a_heat_that_comes_to_light_is_one_more_than_were_told_where_some_were_marked() -> None:
    session = drawing()
    session.heat()
    session.done(heats=2)
    session.heat_then(step=2)
    assert heats(session, 2) == 3


def test_its_time_says_its_step() -> None:
    # The clock of the tests goes on by a minute with every entry, from 8:00 UTC.
    session = drawing()
    session.heat()
    at = session.history()[-1].at
    session.done()
    session.done()
    answer = session.heat_then(at=f"{at[:10]} {_wall(at)}")
    body = session._state.counted[answer.entry].body
    assert isinstance(body, LateHeat)
    assert body.step == 2
    assert heats(session, 2) == 2


def _wall(at: str) -> str:
    from datetime import datetime

    from coach.quantities.moments import on_the_wall

    return f"{on_the_wall(datetime.fromisoformat(at)):%H:%M}"


def test_it_takes_its_scale_as_one_that_was_marked_does() -> None:
    late, marked = drawing(), drawing()
    late.heat()
    late.done()
    late.heat_then(step=2)
    marked.heat()
    marked.heat()
    marked.done()
    assert late._state.start is not None
    assert marked._state.start is not None
    lost = [one._state.start.volume_mm3("poll") for one in (late, marked)]  # type: ignore[union-attr]
    assert lost[0] == pytest.approx(lost[1], rel=1e-9)


def test_a_size_that_was_read_before_it_is_old() -> None:
    session = drawing()
    session.heat()
    session.read("poll.side", "35")
    session.heat_then(step=2)
    side = next(check for check in session.standing().checks if check.name == "poll.side")
    assert side.reading is not None
    assert side.reading.old


@pytest.mark.parametrize("step", [0, 9])
def test_no_heat_is_of_a_step_that_is_still_to_come(step: int) -> None:
    with pytest.raises(EntryFault, match="A heat may be of step 1 to 2 as yet"):
        drawing().heat_then(step=step)


def test_a_job_with_late_heats_is_carried_as_it_is() -> None:
    from coach.log.carry import export_job, import_job
    from tests.bench.jobs import shop

    session = drawing()
    session.heat()
    session.done()
    session.heat_then(step=2)
    other = shop()
    carried = other.open(import_job(other.log, export_job(session._log, session.job)))
    assert heats(carried, 2) == 2


def test_a_heat_without_a_time_lies_before_what_was_read_at_the_end_of_its_step() -> None:
    session = drawing()
    session.heat()
    session.read("poll.side", "34")
    session.read("poll.length", "50")
    session.done()
    session.heat_then(step=2)
    course = session._state.course_of(2)
    assert course is not None
    assert [one.mark.reading.dimension for one in course.outcomes if not one.old] == ["side", "length"]
    assert heats(session, 2) == 2


def test_a_heat_without_a_time_lies_behind_what_was_entered_late_before_it() -> None:
    session = drawing()
    session.done()
    then = session.then(step=2)
    session.read("poll.side", "35.5", then=then)
    session.heat_then(step=2)
    session.read("poll.side", "34", then=session.then(step=2))
    course = session._state.course_of(2)
    assert course is not None
    assert [one.old for one in course.outcomes] == [True, False]


def said_of(answer: Answer) -> str:
    assert isinstance(answer.did, Words)
    return write(answer.did)


def test_a_heat_at_a_step_that_is_done_cold_is_doubted_as_it_is_marked_and_later_too() -> None:
    session = begun(HAMMER)  # step 1 marks the bar out: no fire is in it
    marked = session.heat()
    assert marked.bad_news
    assert "step 1 needs no fire: if the heat was of another step" in said_of(marked)
    session.done()
    later = session.heat_then(step=1)
    assert later.bad_news
    assert "step 1 needs no fire" in said_of(later)
    assert "needs no fire" not in said_of(session.heat())  # step 2 draws, at two heats
