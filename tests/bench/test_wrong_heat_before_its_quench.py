"""What is told of a hardening heat that is wrong, and the way back from it, say one thing."""

from __future__ import annotations

from coach.bench.session import Session
from coach.telling.entered import answer_text
from coach.telling.words import write
from coach.telling.writing import Shown
from tests.bench.jobs import at_step_of
from tests.told import why


def again(session: Session) -> str:
    (way,) = (one for one in session.ways_back() if one.name.startswith("do-again-harden"))
    return write(way.changes)


# Steel is hardened from some 30 to 50 °C over where it has turned (common practice, no source): a little
# more is let fall, and no second quench is wanted for it.
def test_a_heat_a_little_over_its_own_is_let_fall_by_the_advice_and_by_the_way() -> None:
    session = at_step_of("cold-chisel", 9)
    told = answer_text(session.read("edge.temperature", "825"), Shown())
    assert "let it fall to it" in told
    assert "If it is not quenched yet it needs none of this: let it fall to its heat" in again(session)
    assert "end step 9 without it" not in again(session)


def test_a_heat_far_over_its_own_is_quenched_by_neither() -> None:
    session = at_step_of("cold-chisel", 9)
    assert "do not quench it" in answer_text(session.read("edge.temperature", "900"), Shown())
    assert "end step 9 without it" in again(session)


def test_a_heat_too_low_is_heated_further_by_both_while_it_is_not_quenched() -> None:
    session = at_step_of("cold-chisel", 9)
    assert "heat it further" in answer_text(session.read("edge.temperature", "745"), Shown())
    assert "If it is not quenched yet it needs none of this: heat it further" in again(session)
    session.done()
    assert "heat it further" not in again(session)


# What is hard softens from a temper's heat on (common practice, no source): no whole head is normalised then.
def test_no_head_is_normalised_whose_other_end_is_hard() -> None:
    session = at_step_of("cross-peen-hammer", 30)
    told = answer_text(session.read("peen.temperature", "920"), Shown())
    assert "The poll is hard already, so no whole head is normalised" in told
    assert "black, normalise it" not in told
    (way,) = (one for one in session.ways_back() if one.name == "do-again-harden-peen")
    assert "no whole head is normalised then" in write(way.caution)
    session.take(way.name)
    session.done()
    step = session.standing().step
    assert step is not None
    assert not any("normalise it before" in one for one in step.cautions)
    assert any("one more chance to crack: look for a crack" in one for one in step.cautions)


def test_after_a_file_that_bit_the_verdict_sends_nobody_back_where_the_way_goes_on() -> None:
    session = at_step_of("cold-chisel", 9)
    session.read("edge.file_test", "fail")
    session.done()
    assert "Go back" not in why(session.standing())
    assert "Grind a spot clean" in why(session.standing())
    assert "Put in after step 9" in again(session)
