"""The table of a step's sizes: nothing is called good that is not, and the size read next is in sight."""

from __future__ import annotations

from pathlib import Path

import pytest

from coach.bench.session import Session
from coach.screens.size_rows import size_glance, size_rows
from coach.telling.writing import Shown
from tests.bench.jobs import at_step, shop

MM = Shown("mm")


@pytest.fixture
def session() -> Session:
    """The poll of an invented hammer, its side read hot and still to be forged down, its length unread."""
    session = at_step(2)
    session.heat()
    session.read("poll.side", "36.2", hot="1000 °C")
    return session


def lines(session: Session, width: int, rows: int = 0) -> list[str]:
    checks = session.standing().checks
    return [line.plain for line in size_rows(checks, checks[0], MM, width, rows)]


@pytest.mark.parametrize("width", range(50, 100))
def test_what_is_wanted_and_the_sign_of_the_verdict_are_never_left_out(session: Session, width: int) -> None:
    head, side, length = lines(session, width)
    assert "wanted" in head
    assert "34 ±1" in " ".join(side.split())
    assert "▼" in side
    assert "·" in length
    assert all(len(line) <= width for line in (head, side, length))


def test_with_room_everything_is_told_in_full(session: Session) -> None:
    head, side, length = lines(session, 80)
    assert [word for word in head.replace("─", " ").split("  ") if word.strip()]
    for word in ("Sizes", "wanted", "read", "to go", "verdict"):
        assert word in head
    assert side.startswith(" ▸  side")
    assert "hot" in side
    assert "more" in side
    assert length.startswith(" 2= length")
    assert "not read" in length


def test_numbers_stand_under_each_other_by_their_points() -> None:
    session = at_step(2)
    session.read("poll.side", "34.5")
    session.read("poll.length", "105")
    _, side, length = lines(session, 80)
    assert side.index("34.5") + 2 == length.index("105") + 3


def test_the_size_read_next_is_in_sight_however_few_rows_there_are() -> None:
    session = at_step(4)
    checks = session.standing().checks
    for chosen in checks:
        told = [line.plain for line in size_rows(checks, chosen, MM, 80, 2)]
        assert len(told) == 2
        assert "more" in told[0]
        assert told[1].startswith(" ▸ ")
        assert chosen.label.removeprefix("eye ") in told[1]


def test_what_a_later_step_mends_is_not_told_as_good() -> None:
    session = at_step(2)  # 34 ±1 at this step; the weld that follows leaves 35 ±1.5
    session.read("poll.side", "35.9")
    session.read("poll.length", "105")
    checks = session.standing().checks
    words = {check.verdict.value for check in checks if check.verdict is not None}
    told = "\n".join(line.plain for line in size_rows(checks, None, MM, 80, 2))
    assert ("good" in told) == (words == {"good"})


def test_a_size_at_a_glance(session: Session) -> None:
    assert size_glance(session.standing().checks[0], MM).startswith("poll side 34 ±1 mm ▼ ")


def test_before_a_name_is_cut_the_answers_of_a_test_and_the_gaps_give_way() -> None:
    path = Path(__file__).parents[2] / "recipes" / "cold-chisel.yaml"
    session = shop().begin(path.read_text("utf-8"), path.name)
    while "file_test" not in {one.dimension for one in session.standing().checks}:
        session.done()
    checks = session.standing().checks
    wide = [line.plain for line in size_rows(checks, checks[0], Shown("mm"), 100)]
    assert any("1 pass 2 doubt 3 fail" in line for line in wide)
    narrow = [line.plain for line in size_rows(checks, checks[0], Shown("mm"), 57)]
    assert not any("…" in line for line in narrow)
    assert any("not tried" in line for line in narrow)
    assert all(len(line) <= 57 for line in narrow)
    least = [line.plain for line in size_rows(checks, checks[0], Shown("mm"), 38)]
    assert "verdict" not in least[0], "rather than letters of it"
    assert all(len(line) <= 38 for line in least)


def test_sizes_that_are_told_as_one_keep_their_numbers() -> None:
    session = at_step(2)
    session.read("poll.side", "34")
    session.read("poll.length", "38.6")
    checks = [*session.standing().checks, *at_step(4).standing().checks[:1]]
    told = [line.plain for line in size_rows(checks, checks[-1], MM, 80, 3)]
    assert "2 sizes good: 1, 2" in told[1]
    assert told[2].startswith(" ▸ ")
