"""An end that burnt before the quench: cut off, and drawn out again behind it or taken down by the stone."""

from __future__ import annotations

import pytest

from coach.bench.losing import LossAsked
from coach.bench.session import Session
from coach.ledger.remedies import WayBack
from coach.ledger.verdict import PlanState
from coach.telling.words import write
from tests.bench.jobs import begun

#: A chisel drawn to a thin end, normalised and hardened; nothing is ground before the quench.
CHISEL = """
title: Chisel
pieces:
  body: {metal: C80, stock: {form: square, side: 16}, zones: [shank, edge]}
drawing:
  shank: {form: square, side: 16 ±0.8, length: 110 ±6}
  edge: {form: taper, width: 16 ±1, thickness: 16 ±1, end width: 18 ±2, end thickness: 3 ±0.4, length: 60 ±12}
steps:
  - {do: mark out, piece: body, check: [shank.length]}
  - {do: taper, zone: edge, to: {end width: 18 ±2, end thickness: 3 ±0.4}, heats: 4}
  - {do: normalise, zone: edge, heats: 3}
  - {do: harden, zone: edge, to: {temperature: 780 to 810 °C}, quench: water, heats: 1}
  - {do: temper, zone: edge, to: {temperature: 265 to 290 °C, soak: at least 1 h}}
  - {do: inspect, zone: edge, check: [edge.end thickness]}
"""


def at(operation: str) -> Session:
    session = begun(CHISEL)
    while session.standing().step.operation != operation:  # type: ignore[union-attr]
        session.done()
    return session


def offered(session: Session) -> dict[str, WayBack]:
    return {way.name: way for way in session.ways_back()}


def cut_back(operation: str) -> Session:
    session = at(operation)
    session.lose(LossAsked("edge", "8"))
    assert session.standing().verdict is PlanState.OFF_PLAN
    return session


@pytest.mark.parametrize("operation", ["normalise", "harden"])
def test_what_is_cut_off_is_drawn_out_again_from_the_stock_behind(operation: str) -> None:
    session = cut_back(operation)
    way = offered(session)["draw-again-edge"]
    assert way.verdict is not PlanState.OFF_PLAN
    assert "end thickness" in write(way.title)
    assert "3 mm" in write(way.title)
    assert "longer" in write(way.changes)
    session.take(way.name)
    assert session.standing().verdict is not PlanState.OFF_PLAN
    assert session.standing().step.operation == "normalise"  # type: ignore[union-attr]
    assert [one.words for one in session.standing().by_hand]


def test_it_is_normalised_once_more_before_the_quench() -> None:
    # What was forged after it was normalised is normalised again (common practice, no source).
    session = cut_back("harden")
    way = offered(session)["draw-again-edge"]
    assert "normalise" in write(way.changes)
    session.take(way.name)
    assert [step.operation for step in session.recipe.steps if step.again] == ["normalise"]


@pytest.mark.parametrize("operation", ["harden", "temper"])
def test_or_it_is_taken_down_by_file_or_stone(operation: str) -> None:
    session = cut_back(operation)
    way = offered(session)["grind-thinner-edge"]
    assert way.verdict is not PlanState.OFF_PLAN
    assert ("wet" in write(way.caution)) is (operation == "temper")
    session.take(way.name)
    assert session.standing().verdict is not PlanState.OFF_PLAN
    assert ("draw-again-edge" in offered(cut_back(operation))) is (operation == "harden")


@pytest.mark.parametrize("text", ["a corner is burnt", "edge: the end burned", "Burnt at the heel"])
def test_what_is_noted_as_burnt_has_its_way_back(text: str) -> None:
    session = at("harden")
    assert not any("burnt" in name for name in offered(session))
    session.to_right(text)
    way = offered(session)["by-hand-edge-burnt"]
    assert "corner" in write(way.changes)
    assert "metal lost" in write(way.changes)


def test_what_was_noted_of_something_else_has_none() -> None:
    session = at("harden")
    session.to_right("edge: take the burr off")
    assert not any("burnt" in name for name in offered(session))
