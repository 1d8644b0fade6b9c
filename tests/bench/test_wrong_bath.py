"""Steel that was quenched in what cracks it stays doubted after the step, until a crack was looked for."""

from __future__ import annotations

from coach.bench.session import Session
from coach.ledger.verdict import PlanState
from coach.telling.words import write
from tests.bench.jobs import begun
from tests.bench.test_file_on_tempered_steel import CHISEL
from tests.told import why

# O1 is quenched in oil, and cracks in water (common practice, no source).
O1 = (
    CHISEL.replace("C80", "O1")
    .replace("780 to 810", "790 to 815")
    .replace("265 to 290 °C, soak: at least 1 h, hardness: 54 to 58", "200 to 220 °C, soak: at least 1 h")
)


def quenched(text: str) -> Session:
    session = begun(text)
    while session.standing().step.operation != "harden":  # type: ignore[union-attr]
        session.done()
    session.done()
    return session


def test_o1_out_of_water_is_tight_until_a_crack_test_passes() -> None:
    session = quenched(O1)
    standing = session.standing()
    assert standing.verdict is PlanState.TIGHT
    assert "water" in why(standing)
    assert "crack" in why(standing)
    (right,) = standing.to_right
    assert (right.zone, right.step) == ("edge", 2)
    assert "crack test" in write(right.words)
    assert "edge.crack_test" in {one.name for one in standing.checks}
    session.done()
    assert session.standing().verdict is PlanState.TIGHT
    session.read("edge.crack_test", "pass")
    assert session.standing().verdict is PlanState.ON_PLAN
    assert not session.standing().to_right


def test_what_its_steel_stands_is_not_doubted() -> None:
    for text in (O1.replace("quench: water", "quench: oil"), CHISEL):
        standing = quenched(text).standing()
        assert standing.verdict is PlanState.ON_PLAN
        assert not standing.to_right
        assert "edge.crack_test" not in {one.name for one in standing.checks}


# So the way back from water is O1's own oil: in time, and at the latest when it is hardened again.
def test_a_bath_that_cracks_its_steel_is_changed_before_the_quench() -> None:
    session = begun(O1)
    assert session.standing().verdict is PlanState.OFF_PLAN
    way = next(one for one in session.ways_back() if one.name == "own-bath-edge")
    assert "Quench the edge in oil" in write(way.title)
    assert "can crack in water" in write(way.changes)
    session.take(way.name)
    (step,) = (one for one in session.recipe.steps if one.quench)
    assert step.quench == "oil"
    assert session.standing().verdict is PlanState.ON_PLAN
    assert not any(one.name == "own-bath-edge" for one in session.ways_back())


def test_what_is_hardened_again_goes_into_its_own_bath_and_not_into_what_cracks_it() -> None:
    session = quenched(O1)
    assert not any(one.name == "own-bath-edge" for one in session.ways_back()), "it is quenched already"
    session.read("edge.file test", "fail")
    way = next(one for one in session.ways_back() if one.name == "do-again-harden-edge")
    assert "In oil this time: water can crack it." in write(way.changes)
    session.take(way.name)
    (again,) = (one for one in session.recipe.steps if one.again and one.quench)
    assert again.quench == "oil"
