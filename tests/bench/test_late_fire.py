"""When a piece went in the fire is entered later, for its hour, as its heats and readings are."""

from __future__ import annotations

import pytest

from coach.bench.entering import EntryFault
from coach.bench.session import Session
from coach.ledger.course import HeatMark
from coach.log.carry import export_job, import_job
from coach.log.kinds.late_fire import LateFire
from coach.telling.entered import answer_text
from coach.telling.writing import Shown
from tests.bench.jobs import HAMMER, begun, shop

_DAY = "2000-01-03"  # long before the clock of the tests


def from_paper() -> Session:
    """The hammer at step 2 of a day that is typed in the evening."""
    session = begun(HAMMER)
    session.begun_before(f"{_DAY} 8:00")
    session.done(at=f"{_DAY} 8:30")
    return session


def lay_s(session: Session) -> list[float | None]:
    """How long the piece lay in the fire for each heat of step 2."""
    course = session._state.course_of(2)
    assert course is not None
    marks = session._state.marks if len(session._state.records) == 1 else session._state.records[1].marks
    return [one.lay_s for one in marks if isinstance(one, HeatMark)]


def test_a_fire_and_a_heat_of_paper_tell_how_long_it_lay() -> None:
    session = from_paper()
    session.fire_then(at=f"{_DAY} 8:40")
    session.heat_then(at=f"{_DAY} 8:52")
    assert lay_s(session) == [12 * 60.0]
    assert session._state.in_at == ""


def test_they_may_be_typed_the_other_way_round_and_once_the_step_is_done() -> None:
    session = from_paper()
    session.heat_then(at=f"{_DAY} 8:52")
    session.done(at=f"{_DAY} 9:00")
    session.fire_then(at=f"{_DAY} 8:40")
    assert lay_s(session) == [12 * 60.0]


def test_one_that_was_left_in_lies_there_since_that_hour() -> None:
    session = from_paper()
    answer = session.fire_then(at=f"{_DAY} 8:40")
    body = session._state.counted[answer.entry].body
    assert isinstance(body, LateFire)
    assert session._state.in_at == body.taken_at
    assert session.history()[-1].taken_at == body.taken_at


def test_what_lay_too_long_is_told_as_it_would_have_been_then() -> None:
    session = from_paper()
    session.fire_then(at=f"{_DAY} 8:40")
    assert "by the clock it lay 8 h" in answer_text(session.heat_then(at=f"{_DAY} 16:40"), Shown())


def test_one_that_goes_in_as_a_step_ends_is_of_the_next() -> None:
    session = from_paper()
    answer = session.fire_then(at=f"{_DAY} 8:30")
    assert session._state.counted[answer.entry].body.of_step == 2


def test_it_is_struck_out_as_any_other() -> None:
    session = from_paper()
    answer = session.fire_then(at=f"{_DAY} 8:40")
    session.heat_then(at=f"{_DAY} 8:52")
    session.strike(answer.entry)
    assert lay_s(session) == [None]


def test_no_piece_goes_in_before_the_job_began_nor_after_its_step_was_done() -> None:
    session = from_paper()
    with pytest.raises(EntryFault, match="The job had not begun at 2000-01-03 7:59"):
        session.fire_then(at=f"{_DAY} 7:59")
    with pytest.raises(EntryFault, match="Step 1 was finished before 2000-01-03 8:40"):
        session.fire_then(1, at=f"{_DAY} 8:40")


def test_a_job_with_late_fires_is_carried_as_it_is() -> None:
    session = from_paper()
    session.fire_then(at=f"{_DAY} 8:40")
    session.heat_then(at=f"{_DAY} 8:52")
    other = shop()
    carried = other.open(import_job(other.log, export_job(session._log, session.job)))
    assert lay_s(carried) == [12 * 60.0]
