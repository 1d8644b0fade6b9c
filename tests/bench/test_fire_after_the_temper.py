"""A fire in a step that needs none, after a temper: it is said, and what it explains is not called false."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from coach.bench.checks import Check
from coach.bench.session import Session
from coach.bench.shop import Shop
from coach.ledger.verdict import PlanState, Verdict
from coach.operations import Does
from coach.telling.size_came import size_row
from coach.telling.words import write
from coach.telling.writing import Shown
from tests.bench.jobs import at_step_of
from tests.bench.jobs import shop as a_shop
from tests.ledger.test_temper_that_is_a_glow import CHISEL


@pytest.fixture
def shop() -> Iterator[Shop]:
    with a_shop() as opened:
        yield opened


def tempered(shop: Shop) -> Session:
    session = shop.begin(CHISEL + "  - sharpen: edge, edge angle 60\n", "chisel.yaml")
    while session.standing().step is not None and session.standing().step.number < 6:  # type: ignore[union-attr]
        session.done()
    return session


def test_a_heat_where_none_is_needed_is_told_to_draw_what_is_tempered(shop: Shop) -> None:
    session = tempered(shop)
    answer = session.heat()
    assert answer.bad_news
    assert "Step 5 tempered the edge, and a fire draws it further" in write(answer.beware)


def test_a_planned_heat_before_the_quench_is_told_nothing_of_it(shop: Shop) -> None:
    session = shop.begin(CHISEL, "chisel.yaml")
    session.done()
    assert not session.heat().beware


HAFTED = CHISEL.replace(", at 280 °C, soak 1 h", ", at 280 °C, soak 1 h, hardness 50 to 58") + (
    "  - sharpen: edge, edge angle 60\n  - inspect: edge\n"
)


def measured(shop: Shop, hrc: str = "54") -> Session:
    """A chisel that was tempered to what is wanted, at its sharpening."""
    session = shop.begin(HAFTED, "chisel.yaml")
    while (step := session.standing().step) is not None and step.number < 6:
        if step.number == 4:
            session.heat()
            session.read("edge.file_test", "pass")
        if step.number == 5:
            session.heat()
            session.read("edge.temperature", "280")
            session.read("edge.hardness", hrc)
        session.done()
    return session


def listed(session: Session) -> list[str]:
    return [write(one.words) for one in session.standing().to_right]


def test_a_temper_in_its_oven_puts_nothing_on_the_list(shop: Shop) -> None:
    assert listed(measured(shop)) == []


def test_a_fire_after_the_temper_is_put_right_before_it_is_on_plan(shop: Shop) -> None:
    session = measured(shop)
    session.heat()
    (told,) = listed(session)
    assert told.startswith("edge: in the fire after its temper: see how hard it is (hardness), or harden and")
    standing = session.standing()
    assert standing.verdict is not PlanState.ON_PLAN
    assert "in the fire after its temper" in write(standing.reason)  # type: ignore[arg-type]
    check = next(one for one in standing.checks if one.name == "edge.hardness")
    assert check.is_open
    assert check.wanted is not None
    assert not any(one.dimension == "hardness" for of in session.sheet().treatments for one in of.read)


def test_what_was_measured_before_such_a_fire_is_asked_for_anew_in_its_step(shop: Shop) -> None:
    session = measured(shop)
    session.heat()
    session.back()
    check = next(one for one in session.standing().checks if one.name == "edge.hardness")
    assert check.reading is not None
    assert check.reading.old
    assert check.verdict is None


@pytest.mark.parametrize("back", [True, False])
def test_a_hardness_that_the_fire_explains_is_believed_and_judged(shop: Shop, *, back: bool) -> None:
    session = measured(shop)
    session.heat()
    if back:
        session.back()
    answer = session.read("edge.hardness", "30")
    check = answer.did
    assert isinstance(check, Check)
    assert not check.is_questioned
    assert check.verdict is Verdict.OUT
    assert [one for one in listed(session) if "hardness too low" in one]
    assert not [one for one in listed(session) if "in the fire" in one]


def test_a_hardness_after_the_fire_teaches_no_curve(shop: Shop) -> None:
    session = measured(shop)
    learned = session.standing().learned
    session.heat()
    session.read("edge.hardness", "50")
    assert session.standing().learned == learned


def test_a_hardness_that_is_still_as_wanted_settles_it(shop: Shop) -> None:
    session = measured(shop)
    session.heat()
    session.read("edge.hardness", "54")
    assert listed(session) == []
    assert session.standing().verdict is PlanState.ON_PLAN


def test_the_smith_may_say_that_it_did_not_lie_in_it(shop: Shop) -> None:
    session = measured(shop)
    session.heat()
    session.righted(session.standing().to_right[0].entry)
    assert listed(session) == []
    assert session.standing().verdict is PlanState.ON_PLAN


def test_such_a_fire_that_is_struck_out_has_undone_nothing(shop: Shop) -> None:
    session = measured(shop)
    session.heat()
    session.strike()
    assert listed(session) == []
    session.back()
    check = next(one for one in session.standing().checks if one.name == "edge.hardness")
    assert check.verdict is Verdict.GOOD


def test_heats_that_are_told_when_the_step_is_done_count_alike(shop: Shop) -> None:
    session = measured(shop)
    session.done(2)
    assert [one for one in listed(session) if "in the fire after its temper" in one]


def test_steel_that_was_hardened_anew_after_the_fire_is_not_on_the_list(shop: Shop) -> None:
    session = measured(shop)
    session.heat()
    session.back()
    session.back()
    session.heat()
    assert not [one for one in listed(session) if "in the fire after its temper" in one]


def test_next_time_names_the_fire_that_no_step_needed_and_plans_none_for_it(shop: Shop) -> None:
    session = measured(shop)
    session.heat()
    heats = next(cost for cost in session.next_time().costs if cost.of == "heats")
    assert (heats.step, heats.edit) == (6, None)
    assert "needs no fire and had one" in write(heats.told)


def test_a_fire_with_the_haft_in_it_asks_for_the_haft_too() -> None:
    session = at_step_of("hedging-hatchet", 99)
    hafted = next(one.number for one in session.recipe.steps if one.does(Does.FITS_A_HAFT))
    while (step := session.standing().step) is None or step.number > hafted:
        session.back()
    answer = session.heat()
    assert "haft" in write(answer.beware)
    assert [one for one in listed(session) if "fit the haft anew" in one]


def apart(session: Session) -> dict[tuple[str, int], tuple[str, ...]]:
    sheet = session.sheet()
    rows = {(one.name, one.step): size_row(one, Shown("mm"), sheet.apart).cells for one in sheet.apart}
    return {of: cells for of, cells in rows.items() if of[0] == "edge.hardness"}


def test_the_sheet_keeps_the_hardness_read_before_such_a_fire_and_tells_the_one_after_it(shop: Shop) -> None:
    session = measured(shop)
    session.heat()
    before = apart(session)["edge.hardness", 5]
    assert before[2] == "—"
    assert "since a fire" in before[3]
    assert "54 HRC" in before[3]
    session.read("edge.hardness", "40")
    told = apart(session)
    assert told["edge.hardness", 5][1:] == before[1:]
    assert told["edge.hardness", 6][2] == "40 HRC"
    assert "under" in told["edge.hardness", 6][3]


def test_to_harden_it_again_is_a_way_back_at_once(shop: Shop) -> None:
    session = measured(shop)
    session.heat()
    way = next(one for one in session.ways_back() if one.name.startswith("do-again-harden"))
    assert "lay in a fire after its temper" in write(way.changes)
    assert "temper the edge" in write(way.changes)
    assert way.verdict is PlanState.ON_PLAN
    session.take(way.name)
    assert session.standing().verdict is PlanState.ON_PLAN
    assert not [one for one in session.ways_back() if one.name.startswith("do-again-harden")]
    put_in = [one for one in session.recipe.steps if one.again]
    assert [one.operation for one in put_in][-2:] == ["harden", "temper"]


def test_no_way_hardens_again_what_is_still_as_hard_as_wanted(shop: Shop) -> None:
    session = measured(shop)
    session.heat()
    session.read("edge.hardness", "54")
    assert not [one for one in session.ways_back() if one.name.startswith("do-again")]
