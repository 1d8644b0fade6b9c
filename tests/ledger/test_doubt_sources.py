"""What a size's doubt comes from, held against plans in which one source after another is known."""

from __future__ import annotations

import pytest

from coach.bench.planned import planned_tool
from coach.ledger.doubt_sources import DoubtFrom, shares_of_doubt
from coach.ledger.forecast import forecast
from coach.ledger.looking_back import look_back
from coach.ledger.plan import Plan
from coach.ledger.workpiece import Workpiece, at_stock
from coach.recipe.model import Recipe
from tests.bench.jobs import HAMMER
from tests.ledger.recipes import DRAW, LAID, NEIGHBOURS, recipe

SMALL = (DRAW, LAID, NEIGHBOURS, HAMMER)


def test_the_shares_of_a_drawn_strap_are_those_reckoned_by_hand() -> None:
    # A mark 1 mm off is 1.5 mm of strap; each side of the bar is known to a share of itself, which the
    # length follows; 3 heats at 0.03 mm off each face are 40 % in doubt (the two tests of the plan's doubt).
    made = recipe(DRAW)
    found = planned_tool(look_back(made))
    lost = next(one.volume.value for one in found.steps[0].taken if one.cause == "scale")
    section = made.pieces["strap"].stock.doubt_share
    parts = {
        DoubtFrom.MARKS: (1.5 * made.mark_doubt_mm) ** 2,
        DoubtFrom.BAR: 2.0 * (240.0 * section) ** 2,
        DoubtFrom.SCALE: (0.4 * lost / (40.0 * 8.0)) ** 2,
    }
    assert found.decides is not None
    whole, told = sum(parts.values()), {one.source: one.share for one in found.decides.sources}
    for source, part in parts.items():
        assert told[source] == pytest.approx(part / whole, abs=0.02)


@pytest.mark.parametrize("text", SMALL)
def test_the_shares_are_all_of_the_doubt_and_the_largest_comes_first(text: str) -> None:
    decides = planned_tool(look_back(recipe(text))).decides
    assert decides is not None
    told = [one.share for one in decides.sources]
    assert sum(told) == pytest.approx(1.0)
    assert told == sorted(told, reverse=True)


@pytest.mark.parametrize("text", SMALL)
@pytest.mark.parametrize("source", [DoubtFrom.MARKS, DoubtFrom.SCALE, DoubtFrom.BAR])
def test_where_a_source_is_known_the_variance_falls_by_its_share(text: str, source: DoubtFrom) -> None:
    made = recipe(text)
    match source:
        case DoubtFrom.MARKS:
            known = made._replace(mark_doubt_mm=0.0)
        case DoubtFrom.SCALE:
            known = made._replace(scale=made.scale._replace(doubt_share=0.0))
        case _:
            pieces = {
                at: piece._replace(stock=piece.stock._replace(doubt_share=0.0))
                for at, piece in made.pieces.items()
            }
            known = made._replace(pieces=pieces)
    plan, at_end = at_the_end(made)
    _, then = at_the_end(known)
    for zone, state in at_end.zones.items():
        if not state.has_form:
            continue
        metal = at_end.volume(zone)
        told = {one.source: one.share for one in shares_of_doubt(plan, at_end.belief, metal.slopes)}
        left = metal.doubt**2 * (1.0 - told.get(source, 0.0))
        assert then.volume(zone).doubt ** 2 == pytest.approx(left, rel=1e-6)


def at_the_end(made: Recipe) -> tuple[Plan, Workpiece]:
    """The tool as a plan expects it, with its sources told apart."""
    plan = look_back(made)
    found = forecast(plan, None, at_stock(plan, told_apart=True), 1)
    return plan, found.after[len(made.steps)]
