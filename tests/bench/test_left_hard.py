"""Steel that was quenched and left without its temper, against advice: a crack is looked for."""

from __future__ import annotations

from coach.bench.session import Session
from coach.ledger.verdict import PlanState
from coach.telling.words import write
from tests.bench.jobs import begun
from tests.bench.test_file_on_tempered_steel import CHISEL


def at_the_quench() -> Session:
    session = begun(CHISEL)
    session.done()
    session.heat()
    return session


def listed(session: Session) -> list[str]:
    return [write(one.words) for one in session.standing().to_right]


# "Quenched steel that is left untempered cracks by itself, often overnight": common practice, no source.
def test_a_crack_is_looked_for_after_a_rest_between_quench_and_temper() -> None:
    session = at_the_quench()
    session.done()
    session.rest(force=True)
    session.resume()
    assert [one for one in listed(session) if "look for a crack" in one]
    assert "edge.crack_test" in {one.name for one in session.standing().checks}
    assert session.standing().verdict is not PlanState.ON_PLAN
    session.read("edge.crack_test", "pass")
    assert listed(session) == []
    assert session.standing().verdict is PlanState.ON_PLAN


def test_a_rest_with_the_quench_still_in_hand_counts_alike() -> None:
    session = at_the_quench()
    session.rest(force=True)
    session.resume()
    assert [one for one in listed(session) if "look for a crack" in one]


def test_a_rest_before_the_quench_or_after_the_temper_asks_for_nothing() -> None:
    session = begun(CHISEL)
    session.done()
    session.rest(force=True)
    session.resume()
    assert listed(session) == []
    while session.standing().step is not None and session.standing().step.number < 4:  # type: ignore[union-attr]
        session.done()
    session.rest(force=True)
    session.resume()
    assert listed(session) == []
