"""The measurements keep what is wanted of every size in sight, as narrow as the bench may make them."""

from __future__ import annotations

import pytest

from coach.bench.session import Session
from coach.screens.widgets.check_table import check_lines
from coach.telling.writing import Shown
from tests.bench.jobs import at_step


def lines(session: Session, width: int) -> list[str]:
    return [line.plain for line in check_lines(session.standing().checks, Shown(session.system), width)]


@pytest.fixture
def session() -> Session:
    """The poll of an invented hammer, its side read hot and still to be forged down, its length unread."""
    session = at_step(2)
    session.heat()
    session.read("poll.side", "36.2", hot="1000 °C")
    return session


def test_with_room_everything_is_told_in_full(session: Session) -> None:
    head, side, length = lines(session, 100)
    assert head.split() == ["Size", "Wanted", "Expected", "Read", "Verdict"]
    assert side.startswith("poll side ")
    assert "(hot 36.2 mm)" in side
    assert "» more to go" in side
    assert "· not read" in length


@pytest.mark.parametrize("width", range(43, 100))
def test_what_is_wanted_and_the_verdict_are_never_left_out(session: Session, width: int) -> None:
    head, side, length = lines(session, width)
    assert head.split()[:2] == ["Size", "Wanted"]
    assert "34 ±1" in side
    assert "» more to go" in side
    assert "·" in length
    assert all(len(line) <= width for line in (head, side, length))


def test_the_zone_that_all_share_goes_before_a_column_does(session: Session) -> None:
    narrow = next(
        told for width in range(99, 40, -1) if not (told := lines(session, width))[1].startswith("poll")
    )
    assert narrow[0].split() == ["Size", "Wanted", "Expected", "Read", "Verdict"]
    assert narrow[1].startswith("side ")


@pytest.mark.parametrize("width", range(43, 100))
def test_an_old_reading_is_called_old_at_every_width(session: Session, width: int) -> None:
    session.heat()
    _, side, _ = lines(session, width)
    assert "· old" in side
