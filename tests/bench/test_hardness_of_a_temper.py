"""What the tester reads of a temper counts: harder than wanted is tempered further, as wanted is right."""

from __future__ import annotations

import pytest

from coach.bench.session import Session
from coach.ledger.verdict import PlanState
from coach.telling.words import write
from tests.bench.test_file_on_tempered_steel import at_the_temper


def read(*, at: str, hardness: str) -> Session:
    session = at_the_temper()
    session.read("edge.temperature", at)
    session.read("edge.soak", "1 h")
    session.read("edge.hardness", hardness)
    session.read("edge.hardness", hardness)  # measured twice, as what surprises is asked to be
    return session


def test_harder_than_wanted_is_tight_and_the_next_hotter_temper_is_the_way_back() -> None:
    # A temper can always be drawn further, some 20 to 30 °C hotter (common practice, no source).
    session = read(at="285", hardness="60")
    assert session.standing().verdict is PlanState.TIGHT
    first, *others = session.ways_back()
    assert first.name == "do-again-temper-edge"
    assert "hotter" in write(first.changes)
    assert not any(way.again for way in others)
    session.take(first.name)
    assert session.standing().verdict is not PlanState.OFF_PLAN
    session.done()
    assert session.standing().verdict is not PlanState.OFF_PLAN
    assert session.standing().step.operation == "temper"  # type: ignore[union-attr]
    session.read("edge.temperature", "310")
    session.read("edge.soak", "1 h")
    session.read("edge.hardness", "56")
    assert session.standing().verdict is PlanState.ON_PLAN


@pytest.mark.parametrize("hardness", ["55", "56", "57"])
def test_too_hot_a_temper_whose_hardness_is_as_wanted_is_not_off_plan(hardness: str) -> None:
    session = read(at="340", hardness=hardness)
    assert session.standing().verdict is not PlanState.OFF_PLAN
    assert not any(way.again for way in session.ways_back())
    session.done()
    assert session.standing().verdict is not PlanState.OFF_PLAN


def test_too_hot_a_temper_that_is_too_soft_is_hardened_and_tempered_again() -> None:
    session = read(at="340", hardness="51")
    assert session.standing().verdict is PlanState.TIGHT
    assert session.ways_back()[0].name == "do-again-harden-edge"
