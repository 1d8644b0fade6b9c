"""A file is harder than most tempered steel and bites it: that alone sends nobody back to the quench."""

from __future__ import annotations

import pytest

from coach.bench.session import Session
from coach.ledger.verdict import PlanState, Verdict
from coach.telling import sheet as told_sheet
from coach.telling.entered import answer_text
from coach.telling.to_go import to_go
from coach.telling.words import write
from coach.telling.writing import Shown
from tests.bench.jobs import begun

CHISEL = """
title: Hardened bar
pieces:
  body: {metal: C80, stock: {form: square, side: 20}, zones: [edge]}
drawing:
  edge: {form: square, side: 19 ±1, length: 60 ±8}
steps:
  - {do: draw, zone: edge, to: {side: 19 ±1}, heats: 1}
  - {do: harden, zone: edge, to: {temperature: 780 to 810 °C}, quench: water, heats: 1, check: [file test]}
  - do: temper
    zone: edge
    to: {temperature: 265 to 290 °C, soak: at least 1 h, hardness: 54 to 58}
    check: [file test]
  - {do: inspect, zone: edge, check: [crack test]}
"""


def at_the_temper(text: str = CHISEL) -> Session:
    session = begun(text)
    while session.standing().step.operation != "temper":  # type: ignore[union-attr]
        session.done()
    return session


def how(session: Session) -> str:
    return next(one.how for one in session.standing().checks if one.dimension == "file_test")


def ways(session: Session) -> list[str]:
    return [one.name for one in session.ways_back() if one.name.startswith("do-again")]


def test_what_a_file_shows_of_tempered_steel_is_told_as_that() -> None:
    # A new file is 62 HRC and more (JIS B 4703, from memory).
    told = how(at_the_temper())
    assert "skates" not in told
    assert "hardly at 54 to 58 HRC" in told


def test_a_file_that_bites_tempered_steel_sends_nobody_back_to_the_quench() -> None:
    session = at_the_temper()
    answer = session.read("edge.file test", "fail")
    told = answer_text(answer, Shown())
    assert "harden it again" not in told
    assert "measure the hardness" in told
    assert not answer.bad_news
    assert ways(session) == []
    assert session.standing().verdict is PlanState.ON_PLAN


@pytest.mark.parametrize("file_first", [True, False])
def test_a_hardness_inside_settles_what_the_file_said(file_first: bool) -> None:
    session = at_the_temper()
    for name, read in [("file test", "fail"), ("hardness", "56")][:: 1 if file_first else -1]:
        session.read(f"edge.{name}", read)
    checks = session.standing().checks
    assert {one.verdict for one in checks if one.reading is not None} == {Verdict.GOOD}
    assert session.standing().to_right == ()
    assert session.standing().verdict is PlanState.ON_PLAN


@pytest.mark.parametrize(
    ("hardness", "skates"), [("58 to 60", False), ("60 to 63", True), ("at least 61", True)]
)
def test_only_steel_left_as_hard_as_a_file_is_to_skate(hardness: str, skates: bool) -> None:
    session = at_the_temper(CHISEL.replace("hardness: 54 to 58", f"hardness: {hardness}"))
    assert ("skates" in how(session)) is skates
    session.read("edge.file test", "fail")
    (read,) = (one for one in session.standing().checks if one.dimension == "file_test")
    assert read.verdict is (Verdict.OUT if skates else Verdict.UNSURE)


@pytest.mark.parametrize("metal", ["C80", "O1"])
def test_hardened_again_it_is_normalised_before_where_its_steel_is(metal: str) -> None:
    # O1 hardens in air where it is thin and is annealed, not normalised (from memory; makers' sheets).
    session = begun(CHISEL.replace("C80", metal).replace("quench: water", "quench: oil"))
    session.done()
    session.read("edge.file test", "fail")
    (way,) = (one for one in session.ways_back() if one.name.startswith("do-again"))
    told = write(way.caution)
    assert ("Normalise before it" in told) is (metal == "C80")
    assert ("annealed" in told) is (metal == "O1")


def test_it_is_tempered_steel_at_the_steps_after_it_too() -> None:
    session = at_the_temper()
    session.done()
    assert not session.read("edge.file test", "fail").bad_news
    assert ways(session) == []


def test_after_the_quench_itself_a_file_that_bites_is_a_failure_still() -> None:
    session = begun(CHISEL)
    session.done()
    assert "skates" in how(session)
    assert session.read("edge.file test", "fail").bad_news
    assert ways(session) != []


def test_such_a_file_test_is_in_doubt_wherever_it_is_told_and_no_cross_stands_under_on_plan() -> None:
    session = at_the_temper()
    session.read("edge.file test", "fail")
    (read,) = (one for one in session.standing().checks if one.dimension == "file_test")
    assert to_go(read, Shown())[:3] == ("?", "", "in doubt")
    session.done()
    rows = [row.cells for row in told_sheet.shop_tests_section(session.sheet()).body[0].rows]  # type: ignore[union-attr]
    assert [row[:2] for row in rows if row[2] == "3"] == [("? edge file test", "in doubt")]
