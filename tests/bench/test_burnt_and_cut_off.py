"""What burnt at the quench and was cut off, as a loss tells, may be burnt no more; the rest is made good."""

from __future__ import annotations

from coach.bench.losing import LossAsked
from coach.bench.session import Session
from coach.telling.words import write
from tests.bench.jobs import at_step_of


def listed(session: Session) -> list[str]:
    return [write(one.words) for one in session.standing().to_right]


def burnt() -> Session:
    # C80 must be feared to burn from 1230 °C on (`coach.fire.limits`).
    session = at_step_of("cold-chisel", 9)
    session.read("edge.temperature", "1250")
    return session


def test_a_loss_told_of_what_burnt_clears_it_and_what_is_left_is_normalised_and_hardened() -> None:
    session = burnt()
    way = next(one for one in session.ways_back() if one.name == "by-hand-edge-burnt")
    assert "puts in no step" in write(way.changes)
    session.lose(LossAsked("edge", "8", "burnt"))
    assert not any("burnt" in one for one in listed(session))
    names = {one.name for one in session.ways_back()}
    assert "by-hand-edge-burnt" not in names
    assert "do-again-harden-edge" in names
    way = next(one for one in session.ways_back() if one.name == "do-again-harden-edge")
    assert "normalise the edge" in write(way.changes)


def test_a_loss_of_another_cause_clears_nothing_and_a_later_heat_burns_anew() -> None:
    session = burnt()
    session.lose(LossAsked("edge", "2", "cut wrong"))
    assert any("burnt" in one for one in listed(session))
    session.lose(LossAsked("edge", "8", "burnt"))
    assert not any("burnt" in one for one in listed(session))
    session.read("edge.temperature", "1260")
    assert any("burnt" in one for one in listed(session))


# What is not hard yet is forged still, though it was filed (common practice, no source).
def test_what_is_left_too_thick_is_drawn_again_though_it_was_filed() -> None:
    session = burnt()
    session.lose(LossAsked("edge", "8", "burnt"))
    session.read("edge.end thickness", "5")
    way = next(one for one in session.ways_back() if one.name == "draw-again-edge")
    assert "File it true again" in write(way.changes)
    session.take(way.name)
    session.done()
    assert not any(one.name == "draw-again-edge" for one in session.ways_back()), "it is hard"
