"""A file bites what no step hardens, as it should; where it skates on what is to be soft, that is told."""

from __future__ import annotations

import pytest

from coach.bench.session import Session
from coach.ledger.verdict import PlanState
from coach.telling.entered import answer_text
from coach.telling.words import write
from coach.telling.writing import Shown
from tests.bench.jobs import at_step_of

SOFT = [
    ("punches-and-drifts", 13, "struck end", "43 HRC"),  # the table's struck end; ASME has 45 (B107.47M)
    ("punches-and-drifts", 13, "butt", "43 HRC"),
    ("cross-peen-hammer", 35, "eye", "30 HRC"),  # DIN 1193, by the table of wanted hardness
    ("drawknife", 14, "right tang", "45 HRC"),  # a proposal of the coach (common practice, no source)
]


def tried(session: Session, zone: str, result: str) -> str:
    return answer_text(session.read(f"{zone}.file test", result), Shown())


@pytest.mark.parametrize(("name", "number", "zone", "_"), SOFT)
def test_a_file_that_bites_what_no_step_hardens_is_as_it_should_be(
    name: str, number: int, zone: str, _: str
) -> None:
    session = at_step_of(name, number)
    before = session.standing().verdict
    told = tried(session, zone, "fail")
    assert "it is soft, as it should be: no step hardens it" in told
    assert "harden it again" not in told
    assert session.standing().to_right == ()
    assert session.standing().verdict is before


@pytest.mark.parametrize(("name", "number", "zone", "most"), SOFT)
def test_a_file_that_skates_on_what_is_to_be_soft_is_bad_news_with_what_to_do(
    name: str, number: int, zone: str, most: str
) -> None:
    session = at_step_of(name, number)
    before = session.standing().verdict
    told = tried(session, zone, "pass")
    assert "draw it back soft before a blow" in told
    assert most in told
    assert session.standing().verdict is not PlanState.ON_PLAN
    (right,) = session.standing().to_right
    assert "hard, where no step hardens it" in write(right.words)
    assert [one.name for one in session.ways_back() if one.name.startswith("do-again")] == []
    tried(session, zone, "fail")  # drawn back
    assert session.standing().to_right == ()
    assert session.standing().verdict is before
