"""Steel that air does not harden stays doubted after its quench, until a file or a hardness proves it."""

from __future__ import annotations

import pytest

from coach.bench.session import Session
from coach.ledger.verdict import PlanState
from coach.telling.entered import answer_text
from coach.telling.words import write
from coach.telling.writing import Shown
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


def test_a_hardness_proves_it() -> None:
    session = at("temper", THIN)
    assert session.standing().verdict is PlanState.OFF_PLAN
    session.read("edge.hardness", "56")
    assert session.standing().verdict is PlanState.ON_PLAN


# Air leaves plain carbon steel pearlite, at 40 HRC or so, and a file bites that (common practice, no source).
@pytest.mark.parametrize("insist", [False, True])
@pytest.mark.parametrize("operation", ["harden", "temper"])
def test_a_file_that_skates_does_not_outvote_the_air(operation: str, insist: bool) -> None:
    session = at(operation, THIN)
    answer = session.read("edge.file_test", "pass", insist=insist)
    assert ("quenched in air" in answer_text(answer, Shown())) is not insist
    assert session.standing().verdict is PlanState.OFF_PLAN
    assert "air does not harden it through" in why(session.standing())


def test_a_file_read_before_the_air_was_told_does_not_outvote_it_either() -> None:
    session = at("harden", THIN.replace("quench: air", "quench: water"))
    session.read("edge.file_test", "pass")
    session.done()
    session.change("quench 2 = air")
    assert session.standing().verdict is PlanState.OFF_PLAN


# O1 thin hardens in still air in part (common practice, no source): there a file tells.
def test_of_steel_that_air_may_harden_in_part_a_file_tells() -> None:
    session = at("harden", THIN.replace("C80", "O1"))
    session.read("edge.file_test", "pass")
    assert session.standing().verdict is PlanState.ON_PLAN


def test_hardened_again_in_its_own_bath_it_is_hardened() -> None:
    session = at("temper")
    way = next(one for one in session.ways_back() if "in water" in write(one.title))
    session.take(way.name)
    assert "air does not harden" not in why(session.standing())
