"""Steel of less carbon is softer than a file from the best quench: there a file that just bites is a pass."""

from __future__ import annotations

import pytest

from coach.bench.learned import OfShop
from coach.bench.session import Session
from coach.ledger.verdict import Verdict
from coach.telling.entered import answer_text
from coach.telling.words import write
from coach.telling.writing import Shown
from tests.bench.jobs import begun

BAR = """
title: Hardened bar
pieces:
  body: {{metal: "{metal}", stock: {{form: square, side: 12}}, zones: [end, butt]}}
drawing:
  end: {{form: square, side: 11 ±1, length: 60 ±8}}
  butt: {{form: square, side: 12, length: 60 ±8}}
steps:
  - {{do: draw, zone: end, to: {{side: 11 ±1}}, heats: 1}}
  - {{do: harden, zone: end, quench: {quench}, heats: 1, check: [file test]{more}}}
  - {{do: temper, zone: end, to: {{temperature: 205 to 215 °C}}, check: [crack test]}}
"""


def at_the_quench(metal: str, quench: str, more: str = "") -> Session:
    session = begun(BAR.format(metal=metal, quench=quench, more=more))
    session.done()
    return session


def how(session: Session) -> str:
    return next(one.how for one in session.standing().checks if one.dimension == "file_test")


def do_agains(session: Session) -> list[str]:
    return [one.name for one in session.ways_back() if one.name.startswith("do-again")]


# C45 as quenched 54 and 58 HRC (a merchant's and a maker's sheet of C45U, confirmed second-hand); 4140 from
# oil at most 57.9 by 20 + 60·√C (from memory). A new file has 62 and more (JIS B 4703, from memory).
@pytest.mark.parametrize(("metal", "quench"), [("C45", "water"), ("4140", "oil")])
def test_where_the_best_quench_is_softer_than_a_file_it_may_just_bite(metal: str, quench: str) -> None:
    session = at_the_quench(metal, quench)
    assert "only just bites" in how(session)
    told = answer_text(session.read("end.file test", "fail"), Shown())
    assert "as freely as steel that was not quenched" in told
    (again,) = (one for one in session.ways_back() if one.name.startswith("do-again"))
    assert "a file may just bite from the best quench" in write(again.caution, Shown())
    session.read("end.file test", "pass")
    assert do_agains(session) == []
    assert session.standing().to_right == ()


# 1084 and C80 as quenched 63 HRC and more (from memory).
@pytest.mark.parametrize(("metal", "quench"), [("C80", "water"), ("1095", "water")])
def test_steel_that_comes_out_as_hard_as_a_file_is_to_skate(metal: str, quench: str) -> None:
    session = at_the_quench(metal, quench)
    assert "pass when it skates" in how(session)
    assert "just bites" not in how(session)


def test_what_a_file_hardly_bit_tells_the_smiths_own_curve_nothing() -> None:
    session = at_the_quench("4140", "oil")
    session.read("end.file test", "pass")
    assert OfShop.TEMPER not in {one.what for one in session.standing().learned}
    session.done()
    step = session.standing().step
    assert step is not None
    assert "own readings" not in " ".join(write(one) for one in step.advice)


def test_a_quench_is_not_done_again_for_more_than_it_can_leave() -> None:
    # 4140 comes to 57.9 HRC at the most by 20 + 60·√C at 0.40 % (from memory): 60 is never reached.
    session = at_the_quench("4140", "oil", ", to: {hardness: 60 to 62}")
    session.read("end.hardness", "55")
    check = next(one for one in session.standing().checks if one.dimension == "hardness")
    assert check.verdict is Verdict.OUT
    assert do_agains(session) == []
