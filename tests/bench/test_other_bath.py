"""What did not harden in a bath milder than its steel asks for is hardened again in that steel's own."""

from __future__ import annotations

import pytest

from coach.bench.session import Session
from coach.ledger.remedies import WayBack
from coach.ledger.verdict import PlanState
from coach.metals.quenches import QUENCHES
from coach.telling.words import write
from tests.bench.jobs import begun

#: C45 hardens in water, in oil only where it is thinner than 5 mm or so (makers' sheets, from memory).
BAR = """
title: Hardened bar
pieces:
  body: {metal: C45, stock: {form: square, side: 20}, zones: [edge]}
drawing:
  edge: {form: square, side: 19 ±1, length: 60 ±8}
steps:
  - {do: draw, zone: edge, to: {side: 19 ±1}, heats: 1}
  - do: harden
    zone: edge
    to: {temperature: 830 to 850 °C}
    quench: oil
    heats: 1
    title: Harden the edge in oil
    how: Straight down into the oil.
    check: [file test]
  - do: temper
    zone: edge
    to: {temperature: 255 to 275 °C, soak: at least 1 h, hardness: 48 to 54}
    check: [hardness]
  - {do: inspect, zone: edge, check: [crack test]}
"""


def at(operation: str, text: str = BAR) -> Session:
    session = begun(text)
    while session.standing().step.operation != operation:  # type: ignore[union-attr]
        session.done()
    return session


def offered(session: Session) -> dict[str, WayBack]:
    return {way.name: way for way in session.ways_back()}


@pytest.mark.parametrize("steps_since", [0, 1, 2, 3])
def test_what_stayed_soft_in_oil_is_hardened_again_in_water(steps_since: int) -> None:
    session = at("harden")
    session.read("edge.file test", "fail")
    for _ in range(steps_since):
        session.done()
    first, *_ = session.ways_back()
    assert first.name == "do-again-harden-edge"
    assert first.verdict is not PlanState.OFF_PLAN
    assert "in water" in write(first.title)
    assert "oil" in write(first.changes)
    session.take(first.name)
    again = next(step for step in session.recipe.steps if step.again and step.quench)
    assert again.quench == "water"
    assert QUENCHES["water"] in again.cautions
    assert QUENCHES["oil"] not in again.cautions
    assert "oil" not in again.title
    assert "oil" not in again.how


@pytest.mark.parametrize("steps_since", [0, 1, 2])
def test_a_soft_hardness_after_the_temper_leads_to_water_too(steps_since: int) -> None:
    session = at("temper")
    session.read("edge.hardness", "32")
    for _ in range(steps_since):
        session.done()
    assert "in water" in write(offered(session)["do-again-harden-edge"].title)


def test_a_quench_in_oil_that_nothing_was_read_of_has_its_way_back() -> None:
    session = at("temper")
    assert session.standing().verdict is PlanState.OFF_PLAN
    way = offered(session)["own-bath-edge"]
    assert way.verdict is not PlanState.OFF_PLAN
    assert "Again, in water" in write(way.title)
    session.take(way.name)
    assert session.standing().verdict is not PlanState.OFF_PLAN
    assert [step.quench for step in session.recipe.steps if step.again and step.quench] == ["water"]


@pytest.mark.parametrize("operation", ["draw", "harden"])
def test_before_the_quench_the_bath_is_changed(operation: str) -> None:
    session = at(operation)
    way = offered(session)["own-bath-edge"]
    assert "in water" in write(way.title)
    assert way.heats == 0
    session.take(way.name)
    (step,) = (step for step in session.recipe.steps if step.quench)
    assert step.quench == "water"
    assert QUENCHES["water"] in step.cautions
    assert QUENCHES["oil"] not in step.cautions
    assert "oil" not in step.title + step.how
    assert session.standing().verdict is not PlanState.OFF_PLAN
    assert "own-bath-edge" not in offered(session)


# O1 hardens in oil; and C45 in water, so that it stays there (makers' sheets, confirmed second-hand).
@pytest.mark.parametrize("changed", [("C45", "O1"), ("quench: oil", "quench: water")])
def test_what_failed_in_its_own_bath_stays_in_it(changed: tuple[str, str]) -> None:
    text = BAR.replace(*changed)
    session = at("harden", text)
    session.read("edge.file test", "fail")
    way = offered(session)["do-again-harden-edge"]
    assert "in water" not in write(way.title)
    session.take(way.name)
    quenched = {step.quench for step in session.recipe.steps if step.quench}
    assert len(quenched) == 1
    assert not any(name.startswith("own-bath") for name in offered(session))


THICK = (
    BAR.replace("side: 20", "side: 40")
    .replace("side: 19", "side: 38")
    .replace("quench: oil", "quench: fast oil")
)


# A property sheet of 1060: water or oil by its section, oil for thin work (confirmed second-hand); water or
# brine for thick pieces of 1084 and brine for those of 1095 (from memory). Before its quench nothing is wrong
# with the 1095: the bars of its table were quenched in oil, and this temper leaves them as hard as is asked.
@pytest.mark.parametrize(
    ("metal", "bath", "failed"),
    [
        ("1060", "water", False),
        ("1060", "water", True),
        ("1084", "water", False),
        ("1084", "water", True),
        ("1095", "brine", True),
    ],
)
def test_a_thick_piece_that_its_own_bath_is_too_slow_for_has_the_bath_of_thick_pieces(
    metal: str, bath: str, *, failed: bool
) -> None:
    session = at("harden", THICK.replace("C45", metal).replace("830 to 850", "805 to 825"))
    if failed:
        session.read("edge.file test", "fail")
    way = offered(session)["do-again-harden-edge" if failed else "own-bath-edge"]
    assert f"in {bath}" in write(way.title)
    assert write(way.caution)
    session.take(way.name)
    step = next(step for step in session.recipe.steps if step.quench == bath)
    assert QUENCHES[bath] in step.cautions


def test_a_thin_blade_is_never_sent_to_water() -> None:
    thin = (
        BAR.replace("side: 20", "side: 8")
        .replace("side: 19", "side: 8")
        .replace("quench: oil", "quench: fast oil")
    )
    session = at("harden", thin.replace("C45", "1084").replace("830 to 850", "805 to 825"))
    session.read("edge.file test", "fail")
    assert not [way for way in session.ways_back() if "in water" in write(way.title)]


def test_a_bath_that_a_carried_job_makes_up_is_refused() -> None:
    from coach.ledger.amended import amended_plan
    from coach.ledger.amendment import Again, Amendment
    from coach.ledger.looking_back import look_back
    from coach.ledger.working import LedgerError

    session = at("harden")
    made_up = Amendment(again=(Again(2, 2, 1, (), "honey"),))
    with pytest.raises(LedgerError, match="quench in honey"):
        amended_plan(look_back(session.recipe), made_up)
