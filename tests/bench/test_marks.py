"""Marks are asked for, shown and read as marks, each from the end of the bar."""

from __future__ import annotations

import pytest

from coach.bench.entering import EntryFault
from coach.bench.session import Session
from coach.ledger.verdict import PlanState, Verdict
from coach.telling.standing import wanted_text
from coach.telling.writing import Shown
from tests.bench.jobs import begun
from tests.told import said

#: Three zones along one bar.
HEAD = """
title: Head
pieces:
  bar: {metal: mild steel, stock: {form: square, side: 30, length: 400}, zones: [poll, waist, blade]}
drawing:
  poll: {form: square, side: 30 ±1, length: 40 ±4, take up: length}
  waist: {form: square, side: 30 ±1, length: 50 ±4, take up: length}
  blade: {form: flat, width: 30 ±2, thickness: 15 ±1, length: 120 ±8, take up: length}
steps:
  - {do: mark out, piece: bar}
  - {do: draw, zone: blade, form: flat, to: {width: 30 ±2, thickness: 15 ±1}, heats: 2}
"""


def marks(session: Session) -> dict[str, float]:
    """The plan's marks: place by the zone that ends there."""
    return {
        check.zone: check.wanted.limits.nominal
        for check in session.standing().checks
        if check.dimension == "mark" and check.wanted is not None
    }


def expected_mm(session: Session, name: str) -> float:
    return next(size.expected.value for size in session.standing().sizes if size.name == name)


def test_a_mark_out_asks_for_every_mark_from_the_end() -> None:
    session = begun(HEAD)
    assert [check.name for check in session.standing().checks] == ["poll.mark", "waist.mark", "blade.mark"]
    placed = marks(session)
    # Of the same bar a zone that keeps its section keeps its length: 40, then 50 more.
    assert placed["poll"] == pytest.approx(40.0, abs=3.0)
    assert placed["waist"] - placed["poll"] == pytest.approx(50.0, abs=3.0)
    assert placed["blade"] - placed["waist"] == pytest.approx(120.0 * 15.0 / 30.0, rel=0.08)
    first = session.standing().checks[0]
    assert wanted_text(first, Shown()).startswith("poll mark, from the end, wanted ")


def test_marks_in_their_places_are_good() -> None:
    session = begun(HEAD)
    for zone, at_mm in marks(session).items():
        session.read(f"{zone}.mark", f"{at_mm:.1f}")
    standing = session.standing()
    assert {check.verdict for check in standing.checks} == {Verdict.GOOD}
    assert standing.verdict is PlanState.ON_PLAN


def test_a_mark_gives_to_one_zone_what_it_takes_from_its_neighbour() -> None:
    session = begun(HEAD)
    placed = marks(session)
    poll, waist, blade = (expected_mm(session, f"{zone}.length") for zone in ("poll", "waist", "blade"))
    session.read("poll.mark", f"{placed['poll'] + 3.0:.1f}", insist=True)
    session.read("waist.mark", f"{placed['waist']:.1f}", insist=True)
    session.read("blade.mark", f"{placed['blade']:.1f}", insist=True)
    assert expected_mm(session, "poll.length") == pytest.approx(poll + 3.0, abs=0.5)
    assert expected_mm(session, "waist.length") == pytest.approx(waist - 3.0, abs=0.5)
    assert expected_mm(session, "blade.length") == pytest.approx(blade, abs=1.0)


def test_a_mark_out_of_its_place_says_how_far() -> None:
    session = begun(HEAD)
    at_mm = marks(session)["waist"]
    answer = session.read("waist.mark", f"{at_mm - 6.0:.1f}", insist=True)
    assert "waist mark" in said(answer)
    assert "out" in said(answer)


def test_a_slip_in_a_mark_is_questioned() -> None:
    session = begun(HEAD)
    at_mm = marks(session)["waist"]
    session.read("waist.mark", f"{10.0 * at_mm:.0f}")
    assert session.standing().checks[1].is_questioned


def test_the_distance_between_two_marks_can_still_be_read() -> None:
    session = begun(HEAD)
    placed = marks(session)
    between = placed["waist"] - placed["poll"]
    assert "good" in said(session.read("waist.length", f"{between:.1f}"))


def test_once_the_bar_is_forged_there_are_no_marks_to_read() -> None:
    session = begun(HEAD)
    session.done()
    with pytest.raises(EntryFault, match="no 'mark' at this step"):
        session.read("waist.mark", "90")


def test_a_mark_out_of_its_place_is_made_anew_and_asked_for_again() -> None:
    session = begun(HEAD)
    placed = marks(session)
    session.read("poll.mark", f"{placed['poll']:.1f}")
    session.read("waist.mark", f"{placed['waist'] - 7.0:.1f}", insist=True)
    session.read("blade.mark", f"{placed['blade']:.1f}")
    assert session.standing().verdict is PlanState.OFF_PLAN
    way = next(one for one in session.ways_back() if one.name == "move-metal-waist-mark")
    assert way.verdict is PlanState.ON_PLAN
    session.take(way.name)
    standing = session.standing()
    assert standing.verdict is PlanState.ON_PLAN
    assert standing.next_check == "waist.mark"
    assert marks(session) == pytest.approx(placed)
    assert "good" in said(session.read("waist.mark", f"{placed['waist']:.1f}"))
