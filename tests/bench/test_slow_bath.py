"""Steel that was quenched in what is too slow for it where it is thick stays told, until a file or a hardness
tells; and brine on a steel of water asks for the crack test.
"""

from __future__ import annotations

import pytest

from coach.bench.session import Session
from coach.ledger.verdict import PlanState
from coach.telling.words import write
from tests.bench.jobs import at_step_of, begun
from tests.bench.test_file_on_tempered_steel import CHISEL
from tests.told import why

#: Where a hardness is wanted, that is judged by itself.
UNASKED = CHISEL.replace(", hardness: 54 to 58", "")


def quenched(text: str = CHISEL) -> Session:
    session = begun(text)
    while session.standing().step.operation != "temper":  # type: ignore[union-attr]
        session.done()
    return session


def listed(session: Session) -> list[str]:
    return [write(one.words) for one in session.standing().to_right]


# Carbon tool steel of 20 mm in oil stays soft within (common practice, no source).
def test_oil_that_was_told_of_a_thick_steel_of_water_asks_for_a_file() -> None:
    session = quenched(UNASKED)
    session.change("quench 2 = oil")
    [told] = listed(session)
    assert "quenched in oil, which leaves C80 soft where it is thick" in told
    assert "edge.file_test" in {one.name for one in session.standing().checks}
    assert session.standing().verdict is PlanState.TIGHT
    assert "oil" in why(session.standing())
    session.done()
    assert len(listed(session)) == 1
    session.read("edge.hardness", "56")
    assert listed(session) == []
    assert session.standing().verdict is PlanState.ON_PLAN


def test_the_edge_of_a_chisel_is_thin_and_goes_in_thick() -> None:
    session = at_step_of("cold-chisel", 9)
    session.change("quench 9 = oil")
    session.done()
    assert any("leaves C80 soft where it is thick" in one for one in listed(session))


@pytest.mark.parametrize("test", ["pass", "doubt"])
def test_a_file_tried_at_the_quench_tells(test: str) -> None:
    session = begun(CHISEL.replace("quench: water", "quench: oil"))
    session.done()
    session.read("edge.file_test", test)
    session.done()
    assert not any("leaves C80 soft" in one for one in listed(session))


def test_thin_steel_and_its_own_bath_are_not_asked_about() -> None:
    thin = CHISEL.replace("side: 20", "side: 3").replace("side: 19 ±1", "side: 2.3 ±0.3")
    for text in (CHISEL, thin.replace("quench: water", "quench: oil")):
        assert listed(quenched(text)) == []


# Brine is fiercer than water and can crack what that does not (common practice, no source).
def test_brine_on_a_steel_of_water_asks_for_the_crack_test_and_stays_on_plan_before() -> None:
    session = begun(CHISEL.replace("quench: water", "quench: brine"))
    assert session.standing().verdict is not PlanState.OFF_PLAN
    session = quenched(CHISEL.replace("quench: water", "quench: brine"))
    [told] = listed(session)
    assert "quenched in brine, which can crack C80" in told
    assert "edge.crack_test" in {one.name for one in session.standing().checks}
    session.read("edge.crack_test", "pass")
    assert listed(session) == []


# W1 is quenched in water or brine (its makers' sheets, from memory).
def test_brine_that_a_steel_names_as_its_own_asks_for_nothing() -> None:
    assert listed(quenched(CHISEL.replace("C80", "W1").replace("quench: water", "quench: brine"))) == []
