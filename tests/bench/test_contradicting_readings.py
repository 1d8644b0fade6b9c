"""What contradicts what was read before it of the same heat treatment is questioned, as sizes are."""

from __future__ import annotations

import pytest

from coach.bench.session import Session
from coach.telling.entered import answer_text
from coach.telling.writing import Shown
from tests.bench.jobs import begun
from tests.bench.test_file_on_tempered_steel import CHISEL


def at(operation: str) -> Session:
    session = begun(CHISEL)
    while session.standing().step.operation != operation:  # type: ignore[union-attr]
        session.done()
    return session


#: What is read first, what contradicts it, and a word of why. Iron lets go of a magnet at 770 °C (Curie, any
#: book of physics); a new file is 60 HRC and more; C80 tempered at 278 °C for 1 h has some 57 HRC (table).
CONTRADICTING = [
    ("harden", ("temperature", "815 °C"), ("magnet", "fail"), "770 °C"),
    ("harden", ("file test", "pass"), ("hardness", "25"), "no file skates"),
    ("harden", ("hardness", "25"), ("file test", "pass"), "a file bites steel of 25 HRC"),
    ("temper", ("temperature", "278 °C"), ("hardness", "66"), "as it was tempered its steel has"),
]


@pytest.mark.parametrize(("operation", "first", "second", "told"), CONTRADICTING)
def test_the_second_of_two_that_cannot_both_be_right_is_questioned(
    operation: str, first: tuple[str, str], second: tuple[str, str], told: str
) -> None:
    session = at(operation)
    assert "cannot be right" not in answer_text(session.read(f"edge.{first[0]}", first[1]), Shown())
    answer = session.read(f"edge.{second[0]}", second[1])
    assert answer.bad_news
    assert told in answer_text(answer, Shown())
    assert "Take it again" in answer_text(answer, Shown())
    assert [one.name for one in session.standing().questioned] == [f"edge.{second[0].replace(' ', '_')}"]


@pytest.mark.parametrize(("operation", "first", "second", "told"), CONTRADICTING)
@pytest.mark.parametrize("insist", [True, False])
def test_insisting_or_the_same_twice_makes_it_stand(
    operation: str, first: tuple[str, str], second: tuple[str, str], told: str, *, insist: bool
) -> None:
    session = at(operation)
    session.read(f"edge.{first[0]}", first[1])
    if not insist:
        session.read(f"edge.{second[0]}", second[1])
    answer = session.read(f"edge.{second[0]}", second[1], insist=insist)
    assert told not in answer_text(answer, Shown())
    assert session.standing().questioned == ()


def test_a_magnet_that_pulls_is_believed_before_the_steel_is_hotter() -> None:
    session = at("harden")
    session.read("edge.magnet", "fail")
    session.read("edge.temperature", "800 °C")
    assert session.standing().questioned == ()


def test_a_soft_hardness_after_a_temper_is_no_contradiction_but_a_failure() -> None:
    session = at("temper")
    session.read("edge.hardness", "40")
    assert session.standing().questioned == ()


def test_a_second_hardness_says_that_it_counts_instead_of_the_first() -> None:
    session = at("temper")
    session.read("edge.hardness", "55")
    told = answer_text(session.read("edge.hardness", "57"), Shown())
    assert "instead of the 55 HRC read before" in told
    told = answer_text(session.read("edge.hardness", "56"), Shown())
    assert "instead of the 57 HRC read before" in told


def test_a_temper_makes_nothing_harder_than_it_was_from_the_quench() -> None:
    session = at("harden")
    session.read("edge.hardness", "50")  # softer than C80 can be: the quench took but half
    session.done()
    answer = session.read("edge.hardness", "56")
    assert answer.bad_news
    assert "from the quench it had 50 HRC, and no temper makes it harder" in answer_text(answer, Shown())
    session.read("edge.hardness", "56", insist=True)
    assert session.standing().questioned == ()
    session.strike()
    session.strike()
    session.read("edge.hardness", "49")
    assert session.standing().questioned == ()
