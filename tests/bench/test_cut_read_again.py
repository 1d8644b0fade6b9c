"""A cut end, or a face of the stone, that is read more than once with nothing done between."""

from __future__ import annotations

from collections.abc import Iterable

import pytest

from coach.bench.session import Session
from coach.telling.reading import reading_sentence
from coach.telling.writing import Shown
from tests.bench.jobs import at_step_of

#: First hook, its plate cut from the bar: 36.4 mm are wanted, at least 29.2; a rule reads to about 0.5 mm.
CUT = 6


def cut(sizes: Iterable[str], *, insist: bool = False) -> Session:
    session = at_step_of("first-hook", CUT)
    session.heat()
    for size in sizes:
        session.read("plate.length", size, insist=insist)
    return session


def told(session: Session) -> tuple[dict[str, bool], float]:
    """Which readings are in question, and how much of the bar the account has in the plate, mm."""
    course = session._state.course()
    assert course is not None
    doubted = {f"{one.mark.reading.size_mm:g}": one.questioned for one in course.outcomes}
    return doubted, course.now.size("plate", "length").value


def alone_mm(size: str) -> float:
    return told(cut([size]))[1]


def test_a_cut_end_does_not_grow_so_the_later_reading_counts_and_the_other_is_doubted() -> None:
    doubted, length_mm = told(cut(["31.5", "35.4"]))
    assert doubted == {"31.5": True, "35.4": False}
    assert length_mm == pytest.approx(alone_mm("35.4"), abs=0.05)


@pytest.mark.parametrize(
    "order", [("31.5", "32.5", "35.4"), ("32.5", "31.5", "35.4"), ("35.4", "31.5", "32.5")]
)
def test_of_three_that_do_not_agree_none_counts_more_than_another(order: tuple[str, ...]) -> None:
    session = cut(order)
    doubted, length_mm = told(session)
    assert not any(doubted.values())
    assert 32.5 < length_mm < 35.4  # their mean is 33.1, and 36.4 was wanted
    check = next(one for one in session.standing().checks if one.name == "plate.length")
    assert check.verdict == "unsure"
    assert "was read 3 times, 31.5 mm to 35.4 mm, and no two agree: measure again" in reading_sentence(
        check, Shown("mm")
    )
    session.read("plate.length", "35.2")
    doubted, length_mm = told(session)
    assert doubted == {"31.5": True, "32.5": True, "35.4": False, "35.2": False}
    assert length_mm == pytest.approx(alone_mm("35.3"), abs=0.1)


def test_the_one_that_counts_is_judged_by_what_was_wanted_all_along() -> None:
    once, again = cut(["35.4"]), cut(["31.5", "35.4"])
    checks = [
        next(one for one in job.standing().checks if one.name == "plate.length") for job in (once, again)
    ]
    assert checks[0].verdict == checks[1].verdict == "good"
    assert once.standing().verdict == again.standing().verdict


def test_what_more_was_cut_off_since_is_gone() -> None:
    doubted, length_mm = told(cut(["35.4", "31.5"]))
    assert not any(doubted.values())
    assert length_mm == pytest.approx(alone_mm("31.5"), abs=0.05)


def test_two_that_agree_within_the_rule_are_both_believed() -> None:
    doubted, length_mm = told(cut(["35.0", "35.4"]))
    assert not any(doubted.values())
    assert alone_mm("35.0") < length_mm < alone_mm("35.4")


def test_two_that_bear_each_other_out_outweigh_a_third() -> None:
    doubted, length_mm = told(cut(["32.4", "32.6", "36"]))
    assert doubted == {"32.4": False, "32.6": False, "36": True}
    assert length_mm == pytest.approx(alone_mm("32.5"), abs=0.1)


def test_but_not_when_that_is_read_once_more() -> None:
    doubted, length_mm = told(cut(["32.4", "32.6", "36", "36.1"]))
    assert doubted == {"32.4": True, "32.6": True, "36": False, "36.1": False}
    assert length_mm == pytest.approx(alone_mm("36"), abs=0.1)


def test_a_reading_that_is_stood_by_is_outweighed_by_no_other() -> None:
    session = cut(["31.5"], insist=True)
    session.read("plate.length", "35.4")
    doubted, _ = told(session)
    assert doubted == {"31.5": False, "35.4": True}


def test_what_counts_of_readings_that_agree_is_said() -> None:
    """A square bar's side, 8.6, 8.4 and 8.3 mm by calliper: they agree as it reads; 8.43 is their mean."""
    session = at_step_of("first-hook", 3)
    session.heat()
    session.heat()
    said = [sentence_of(session, "shank.side", size) for size in ("8.6", "8.4", "8.3")]
    assert "the mean of" not in said[0]
    assert "8.5 mm counts: the mean of 2" in said[1]
    assert "8.4 mm counts: the mean of 3" in said[2]


def test_what_counts_no_more_is_said_with_what_outweighs_it() -> None:
    session = cut(["31.5"])
    assert "The 31.5 mm read before is doubted by it" in sentence_of(session, "plate.length", "35.4")
    assert "read before" not in sentence_of(session, "plate.length", "35.4")


def test_a_slip_of_another_size_keeps_no_reading_from_outweighing_an_earlier_one() -> None:
    """A hexagon of 19 is spread to 21.5 by mistake: the later reading counts, as it does without the slip."""
    told = {}
    for slips in ((), ("edge.end_width=7.9", "edge.length=18.9")):
        session = at_step_of("cold-chisel", 2)
        session.heat()
        for size in ("edge.end_thickness=8.1", "edge.end_width=21.3", "edge.width=19", "edge.length=50"):
            session.read(*size.split("="))
        for size in slips:
            session.read(*size.split("="))
        told[slips] = sentence_of(session, "edge.width", "21.5")
        assert not session.read("edge.end_width", "21.6").others
    assert "The 19 mm read before is doubted by it, and counts no more." in told[()]
    assert len(set(told.values())) == 1


@pytest.mark.parametrize(("again", "stands"), [("17.9", False), ("17.6", True)])
def test_an_impossible_length_is_not_borne_out_by_another_reading(again: str, stands: bool) -> None:
    """What its metal makes at most is told with the first; a second one that is another is another slip."""
    session = at_step_of("cold-chisel", 3)
    session.heat()
    session.read("head.length", "9.6")
    session.done()
    session.heat()
    session.read("head.end_diameter", "12.9")
    assert "cannot be right as things stand" in sentence_of(session, "head.length", "17.6")
    assert ("cannot be right as things stand" not in sentence_of(session, "head.length", again)) == stands


def test_what_was_worked_between_is_no_mean() -> None:
    session = at_step_of("first-hook", 3)
    session.heat()
    sentence_of(session, "shank.side", "8.4")
    session.heat()
    assert "the mean of" not in sentence_of(session, "shank.side", "8.2")


def sentence_of(session: Session, name: str, size: str) -> str:
    session.read(name, size)
    check = next(one for one in session.standing().checks if one.name == name)
    return reading_sentence(check, Shown("mm"))
