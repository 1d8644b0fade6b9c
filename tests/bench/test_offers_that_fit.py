"""What is offered fits the piece: no hammer after the stone, nothing given up while it is on plan."""

from __future__ import annotations

import pytest

from coach.bench.session import Session
from coach.ledger.verdict import PlanState
from coach.places import bundled_recipes
from coach.quantities import mm
from coach.telling.figures import write_figure
from coach.telling.words import write
from tests.bench.jobs import shop


def job(name: str, step: int) -> Session:
    recipe = bundled_recipes() / f"{name}.yaml"
    session = shop().begin(recipe.read_text(encoding="utf-8"), recipe.name, None)
    while session.standing().step.number < step:  # type: ignore[union-attr]
        session.done()
    return session


def offered(session: Session) -> set[str]:
    return {way.name for way in session.ways_back()}


def test_what_is_being_ground_is_not_hammered_thinner() -> None:
    session = job("carpenters-adze", 32)
    assert session.recipe.steps[31].operation == "grind"
    session.read("bit.end thickness", "2.3", insist=True)
    session.read("bit.length", "52", insist=True)
    assert session.standing().verdict is PlanState.OFF_PLAN
    assert not [name for name in offered(session) if name.startswith("work-nearer")]


def test_nothing_that_the_drawing_asks_for_is_given_up_while_all_is_on_plan() -> None:
    session = job("hedging-hatchet", 1)
    session.read("poll.mark", "17.5")
    session.read("eye.mark", "60", insist=True)
    session.done()
    session.take("move-metal-eye-mark")
    assert session.standing().verdict is PlanState.ON_PLAN
    assert not [name for name in offered(session) if "leave" in name or "accept" in name]


def test_what_is_accepted_is_offered_at_the_size_that_is_told() -> None:
    # A hole read at 35.0 mm, the file still to come: its row and what is accepted are one size.
    session = job("hedging-hatchet", 33)
    session.read("eye.hole_length", "35.0", insist=True)
    session.done()
    row = next(size for size in session.standing().sizes if size.name == "eye.hole_length")
    assert row.expected.value == pytest.approx(35.0, abs=0.05)
    way = next(way for way in session.ways_back() if way.name == "accept-eye-hole-length")
    assert "at 35 mm" in write(way.title)


def test_what_is_left_is_left_at_the_size_that_is_told() -> None:
    session = job("carpenters-adze", 19)
    session.read("edge.length", "44.0", insist=True)
    session.done()
    row = next(size for size in session.standing().sizes if size.name == "edge.length")
    way = next(way for way in session.ways_back() if way.name == "too-much-metal-leave-edge-length")
    assert f"at {write_figure(mm(row.expected.value))}" in write(way.title)


def test_what_is_cut_off_is_the_same_before_a_step_is_done_and_after_it() -> None:
    # The next step tapers the tang: until it has, its end is as thick as the rest of it.
    session = job("drawknife", 2)
    session.read("left tang.width", "13.5")
    session.read("left tang.thickness", "6")
    session.read("left tang.length", "102.7", insist=True)
    told = []
    for _ in range(2):
        ways = {way.name: write(way.title) for way in session.ways_back()}
        told.append(ways["too-much-metal-cut-left-tang-length"])
        session.done()
    assert told[0] == told[1]
