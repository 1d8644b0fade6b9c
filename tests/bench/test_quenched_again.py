"""A second quench without a normalising before it is told for what it is, and a crack is looked for."""

from __future__ import annotations

import pytest

from coach.bench.session import Session
from coach.operations.shop_test import Result
from coach.telling.entered import answer_text
from coach.telling.reading import reading_sentence
from coach.telling.words import write
from coach.telling.writing import Shown
from tests.bench.jobs import begun
from tests.bench.test_file_on_tempered_steel import CHISEL


def at_the_quench() -> Session:
    session = begun(CHISEL)
    session.done()
    session.heat()
    return session


def to_right(session: Session) -> list[str]:
    return [write(one.words) for one in session.standing().to_right]


# Quench cracks come of coarse grain and of every quench anew: pmpa.org (confirmed); common practice.
@pytest.mark.parametrize(
    ("reads", "told"),
    [
        ({"file_test": "fail"}, "This is a second quench"),
        ({"hardness": "65"}, "This is a second quench"),
        ({"magnet": "pass", "temperature": "800"}, "If it was quenched before, this is a second one"),
        ({}, "If it was quenched before, this is a second one"),
    ],
)
def test_a_second_quench_is_told_and_a_crack_test_asked(reads: dict[str, str], told: str) -> None:
    session = at_the_quench()
    for name, read in reads.items():
        session.read(f"edge.{name}", read)
    answer = session.heat()
    said = answer_text(answer, Shown())
    assert told in said
    assert "one more chance to crack" in said
    assert "Normalise it before" in said
    assert answer.bad_news
    assert "edge.crack_test" in {one.name for one in session.standing().checks}
    assert any("second quench: look for a crack" in one for one in to_right(session))
    session.read("edge.crack_test", "pass")
    assert not any("second quench" in one for one in to_right(session))


def test_back_to_the_fire_after_the_magnet_held_is_no_second_quench() -> None:
    session = at_the_quench()
    session.read("edge.magnet", "fail")
    assert "second" not in answer_text(session.heat(), Shown())
    assert not any("second" in one for one in to_right(session))


def test_it_can_be_put_right_by_hand_and_struck_out() -> None:
    session = at_the_quench()
    entry = session.heat().entry
    session.righted(entry)
    assert to_right(session) == []
    session.strike()
    session.strike(entry)
    assert to_right(session) == []


def test_a_forging_heat_beyond_the_plan_is_no_quench() -> None:
    session = begun(CHISEL)
    session.heat()
    assert "quench" not in answer_text(session.heat(), Shown())


def test_what_was_read_of_the_first_quench_is_asked_for_anew_after_the_second() -> None:
    session = at_the_quench()
    for name, read in {"temperature": "800", "magnet": "pass", "hardness": "64", "file_test": "pass"}.items():
        session.read(f"edge.{name}", read)
    session.heat()
    read_of = {one.dimension: one.reading for one in session.standing().checks if one.reading is not None}
    assert {name for name, read in read_of.items() if not read.old} == set()
    session.read("edge.temperature", "800")
    check = next(one for one in session.standing().checks if one.dimension == "temperature")
    assert not check.is_open


def test_a_heat_that_was_too_cold_stays_told_until_it_is_read_again() -> None:
    session = at_the_quench()
    session.read("edge.temperature", "700")
    session.heat()
    check = next(one for one in session.standing().checks if one.dimension == "temperature")
    assert check.reading is not None
    assert not check.reading.old


def test_no_heat_is_said_to_have_worked_a_hardness() -> None:
    session = at_the_quench()
    session.read("edge.hardness", "64")
    session.heat()
    (check,) = (one for one in session.standing().checks if one.dimension == "hardness")
    assert reading_sentence(check, Shown()).endswith("before the last heat. Read it again.")


def test_after_a_second_quench_what_was_tried_before_is_history_on_the_sheet() -> None:
    session = at_the_quench()
    session.read("edge.file_test", "fail")
    session.heat()
    session.done()
    (tried,) = (one for one in session.sheet().tests if (one.test, one.step) == ("file_test", 2))
    assert (tried.result, tried.failed_before) == (None, 1)
    (crack,) = (one for one in session.sheet().tests if one.test == "crack_test")
    assert (crack.result, crack.step) == (None, 2)


def test_what_is_tried_after_a_second_quench_counts() -> None:
    session = at_the_quench()
    session.read("edge.file_test", "fail")
    session.heat()
    session.read("edge.crack_test", "pass")
    session.read("edge.file_test", "pass")
    session.done()
    told = {(one.test, one.step): (one.result, one.failed_before) for one in session.sheet().tests}
    assert told["file_test", 2] == (Result.PASS, 1)
    assert told["crack_test", 2] == (Result.PASS, 0)
