"""Steel that air does not harden stays doubted after its quench, until a file or a hardness proves it."""

from __future__ import annotations

import pytest

from coach.bench.session import Session
from coach.ledger.verdict import PlanState
from coach.telling.words import write
from tests.bench.jobs import begun
from tests.bench.test_file_on_tempered_steel import CHISEL
from tests.told import why

# Plain carbon steel does not harden in air (common practice, no source).
IN_AIR = CHISEL.replace("quench: water", "quench: air")
THIN = IN_AIR.replace("side: 20", "side: 3").replace("side: 19 ±1", "side: 2.3 ±0.3")


def at(operation: str, text: str = IN_AIR) -> Session:
    session = begun(text)
    while session.standing().step.operation != operation:  # type: ignore[union-attr]
        session.done()
    return session


def test_it_is_off_plan_still_when_the_quench_is_done_and_the_bath_is_told() -> None:
    session = at("harden")
    before = session.standing()
    session.done()
    standing = session.standing()
    assert before.verdict is standing.verdict is PlanState.OFF_PLAN
    assert "air does not harden it through" in why(standing)
    known = " ".join(map(write, standing.step.know))  # type: ignore[union-attr]
    assert "Air does not harden C80" in known
    assert "is left at" not in known
    assert any("in water" in write(one.title) for one in session.ways_back())
    session.done()
    assert session.standing().verdict is PlanState.OFF_PLAN


@pytest.mark.parametrize("done", [0, 1])
def test_a_file_that_skates_or_a_hardness_proves_it(done: int) -> None:
    session = at("harden", THIN)
    assert session.standing().verdict is PlanState.OFF_PLAN
    for _ in range(done):
        session.done()
    read = ("edge.file_test", "pass") if not done else ("edge.hardness", "56")
    session.read(*read)
    assert session.standing().verdict is PlanState.ON_PLAN


def test_hardened_again_in_its_own_bath_it_is_hardened() -> None:
    session = at("temper")
    way = next(one for one in session.ways_back() if "in water" in write(one.title))
    session.take(way.name)
    assert "air does not harden" not in why(session.standing())
