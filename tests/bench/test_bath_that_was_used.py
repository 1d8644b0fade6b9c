"""The bath that was really used is told in a line, also once its step is done, and the job goes on by it."""

from __future__ import annotations

import pytest

from coach.bench.session import Session
from coach.ledger.verdict import PlanState
from coach.quantities.refusal import Refusal
from coach.recipe.reader import read_recipe
from coach.telling.words import write
from tests.bench.jobs import begun
from tests.bench.test_file_on_tempered_steel import CHISEL
from tests.bench.test_wrong_bath import O1
from tests.told import why

IN_OIL = O1.replace("quench: water", "quench: oil, title: Harden the edge in oil")


def at_harden(text: str) -> Session:
    session = begun(text)
    while session.standing().step.operation != "harden":  # type: ignore[union-attr]
        session.done()
    return session


def quench(session: Session) -> str:
    (step,) = (one for one in session.recipe.steps if one.quench and not one.again)
    return step.quench


# O1 is quenched in oil, and cracks in water (common practice, no source).
def test_a_finished_quench_that_was_in_water_is_told_so_and_looked_at_for_a_crack() -> None:
    session = at_harden(IN_OIL)
    session.done()
    assert session.standing().verdict is PlanState.ON_PLAN
    answer = session.change("quench 2 = water")
    assert quench(session) == "water"
    assert answer.bad_news is False  # it is tight, and one test tells
    standing = session.standing()
    assert standing.verdict is PlanState.TIGHT
    assert "crack" in why(standing)
    assert "edge.crack_test" in {one.name for one in standing.checks}
    # A failed file test then does not go into the water once more.
    session.back()
    session.read("edge.file test", "fail")
    way = next(one for one in session.ways_back() if one.name == "do-again-harden-edge")
    assert "In oil this time: water can crack it." in write(way.changes)


def test_it_is_struck_out_like_any_entry() -> None:
    session = at_harden(IN_OIL)
    session.done()
    answer = session.change("quenched 2 in water")
    session.strike(answer.entry)
    assert quench(session) == "oil"
    assert session.standing().verdict is PlanState.ON_PLAN


def test_a_finished_quench_that_was_told_wrongly_is_right_again() -> None:
    session = at_harden(O1)
    session.done()
    assert session.standing().verdict is PlanState.TIGHT
    session.change("quench 2 = oil")
    assert session.standing().verdict is PlanState.ON_PLAN
    assert not session.standing().to_right


# Carbon tool steel of 20 mm in oil stays soft within (common practice, no source).
def test_a_quench_that_was_too_slow_is_made_once_more_in_its_own_bath() -> None:
    session = at_harden(CHISEL)
    session.done()
    session.change("quench 2 = oil")
    assert any(one.name == "own-bath-edge" for one in session.ways_back())


def test_of_the_step_in_hand_it_is_told_before_and_after_something_is_read() -> None:
    session = at_harden(IN_OIL)
    told = session.change_told("quench 2 = water")
    assert told.after.verdict is PlanState.OFF_PLAN
    assert "water, was oil" in write(told.changes.ahead[0].words)
    session.read("edge.magnet", "pass")
    session.change("quench 2 = water")
    assert session.standing().verdict is PlanState.OFF_PLAN
    assert any(one.name == "own-bath-edge" for one in session.ways_back()), "it is not quenched yet"
    assert "oil" not in session.standing().step.title  # type: ignore[union-attr]


def test_what_is_changed_later_keeps_the_bath_that_was_told() -> None:
    session = at_harden(IN_OIL)
    session.done()
    session.change("quench 2 = water")
    session.change("skip 4")
    assert quench(session) == "water"
    # The recipe that was really forged quenches in it too, and its title says no other.
    forged = read_recipe(session.forged(), "forged.yaml")
    (step,) = (one for one in forged.steps if one.quench)
    assert step.quench == "water"
    assert "oil" not in step.title


def test_a_bath_that_a_way_back_changed_stays_changed() -> None:
    session = begun(O1)
    session.take("own-bath-edge")
    assert quench(session) == "oil"
    session.change("heats 1 = 5")
    assert quench(session) == "oil"


@pytest.mark.parametrize(
    ("line", "why_not"),
    [
        ("quench 1 = oil", "Step 1, .*, quenches nothing"),
        ("quench 9 = oil", "There is no step 9"),
        ("quench 2 = beer", "beer.* is no bath.*oil"),
        ("quench 2 = oil", "Step 2, .*, is quenched in oil already"),
        ("quench 2 = water; skip 3", "by itself"),
    ],
)
def test_what_cannot_be_is_told_in_a_sentence(line: str, why_not: str) -> None:
    session = at_harden(IN_OIL)
    entries = session.standing().last_entry
    with pytest.raises(Refusal, match=why_not):
        session.change(line)
    assert session.standing().last_entry == entries


# What of plain carbon steel cools in air does not harden (common practice, no source).
def test_a_quench_that_was_in_air_is_made_once_more_in_the_steels_own_bath() -> None:
    thin = CHISEL.replace("side: 20", "side: 3").replace("side: 19 ±1", "side: 2.8 ±0.2")
    session = at_harden(thin)
    session.read("edge.file test", "fail")
    session.change("quench 2 = air")
    assert "In water this time: air alone does not harden it." in " ".join(
        write(way.changes) for way in session.ways_back()
    )


def test_what_is_found_of_it_is_told_of_its_entry_and_of_no_line_of_the_file() -> None:
    session = at_harden(IN_OIL)
    answer = session.change("quench 2 = water")
    told = why(session.standing())
    assert f"Changed by you: entry {answer.entry}" in told
    assert "In the recipe: line" not in told
