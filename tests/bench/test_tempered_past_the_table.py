"""A temper hotter than any table tells: its last row is the most there can be; over Ac1 it is no temper."""

from __future__ import annotations

import pytest

from coach.bench.session import Session
from coach.telling.entered import answer_text
from coach.telling.writing import Shown
from tests.bench.test_contradicting_readings import at

#: The eutectoid of plain carbon steel is at 727 °C (the iron-carbon diagram, from memory); a table of bars
#: of 1 in of 1080 and 1095 ends at 650 °C with 30 to 33 HRC (facts E2): nothing hotter is harder.
PAST = ["655 °C", "680 °C", "760 °C", "840 °C"]


def read(session: Session, name: str, typed: str, *, insist: bool = False) -> str:
    return answer_text(session.read(f"edge.{name}", typed, insist=insist), Shown())


@pytest.mark.parametrize("heat", PAST)
@pytest.mark.parametrize("hrc", ["56", "62", "48"])
def test_no_hardness_of_hardened_steel_is_believed_of_so_hot_a_temper(heat: str, hrc: str) -> None:
    session = at("temper")
    read(session, "temperature", heat)
    read(session, "soak", "60 min")
    assert "as it was tempered its steel has" in read(session, "hardness", hrc)
    assert [one.name for one in session.standing().questioned] == ["edge.hardness"]
    assert any("temperature" in one.text for one in session.standing().to_right)


@pytest.mark.parametrize("heat", PAST)
def test_the_heat_is_questioned_where_the_hardness_came_first(heat: str) -> None:
    session = at("temper")
    read(session, "hardness", "56")
    assert "so hot a temper leaves its steel" in read(session, "temperature", heat)


@pytest.mark.parametrize("heat", PAST)
def test_no_file_skates_over_it_whichever_came_first(heat: str) -> None:
    session = at("temper")
    read(session, "temperature", heat)
    assert "cannot be right" in read(session, "file_test", "pass")
    session = at("temper")
    read(session, "file_test", "pass")
    assert "cannot be right" in read(session, "temperature", heat)


@pytest.mark.parametrize("heat", PAST)
def test_a_soft_hardness_is_what_it_leaves(heat: str) -> None:
    session = at("temper")
    read(session, "temperature", heat)
    assert "cannot be right" not in read(session, "hardness", "28")


def test_over_where_it_turns_it_is_annealed_or_hardened_anew() -> None:
    session = at("temper")
    told = read(session, "temperature", "760 °C")
    assert "annealed" in told
    assert "hardened anew" in told
    assert "normalise it, harden it again" in told
    assert "No cooler temper" not in told
    told = read(at("temper"), "temperature", "680 °C")
    assert "annealed" not in told
    assert "harden it again" in told
