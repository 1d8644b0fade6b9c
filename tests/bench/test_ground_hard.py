"""Steel that is ground before its temper: a crack is looked for after it, and the temper comes first while
the grinding is ahead.
"""

from __future__ import annotations

from coach.bench.session import Session
from coach.ledger.verdict import PlanState
from coach.telling.words import write
from tests.bench.jobs import begun
from tests.bench.test_file_on_tempered_steel import CHISEL
from tests.told import why

# "Glass-hard steel cracks under a wheel": common practice, no source.
GROUND = "  - {do: grind, zone: edge, loses: 1 mm, check: [length]}\n"
EARLY = CHISEL.replace("  - do: temper", GROUND + "  - do: temper")
LATE = CHISEL.replace("  - {do: inspect", GROUND + "  - {do: inspect")


def at(operation: str, text: str) -> Session:
    session = begun(text)
    while session.standing().step.operation != operation:  # type: ignore[union-attr]
        session.done()
    return session


def listed(session: Session) -> list[str]:
    return [write(one.words) for one in session.standing().to_right]


def test_once_it_was_ground_hard_a_crack_is_looked_for() -> None:
    session = at("grind", EARLY)
    assert session.standing().verdict is PlanState.OFF_PLAN
    assert listed(session) == []
    session.done()
    [told] = listed(session)
    assert "edge: ground before its temper" in told
    assert "crack test" in told
    assert "edge.crack_test" in {one.name for one in session.standing().checks}
    assert session.standing().verdict is not PlanState.ON_PLAN
    assert "crack" in why(session.standing())
    session.done()  # the temper closes no crack
    assert len(listed(session)) == 1
    session.read("edge.crack_test", "pass")
    assert listed(session) == []
    assert session.standing().verdict is PlanState.ON_PLAN


def test_ground_after_its_temper_it_asks_for_nothing() -> None:
    session = at("inspect", LATE)
    assert listed(session) == []
    assert session.standing().verdict is PlanState.ON_PLAN


def test_while_the_grinding_is_ahead_the_temper_is_offered_before_it() -> None:
    for operation in ("harden", "grind"):
        session = at(operation, EARLY)
        way = next(one for one in session.ways_back() if one.name == "temper-first-edge")
        session.take(way.name)
        does = [one.operation for one in session.recipe.steps]
        assert does.index("temper") == does.index("grind") - 1
        assert [one.title for one in session.recipe.steps].count("First: temper the edge") == 1
        assert session.standing().verdict is PlanState.ON_PLAN
        while session.standing().step is not None:
            session.done()
        assert listed(session) == []


def test_once_it_is_being_ground_no_temper_is_put_before_it() -> None:
    session = at("grind", EARLY)
    session.read("edge.length", "60 mm")
    assert not any(one.name == "temper-first-edge" for one in session.ways_back())
