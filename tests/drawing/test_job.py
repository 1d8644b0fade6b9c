"""Tests of the solids of one piece, from the recipes that come with the coach."""

from __future__ import annotations

from pathlib import Path

import pytest

from coach.drawing.job import piece_solids, stock_solids
from coach.drawing.views import plan_view, side_view
from coach.ledger.looking_back import look_back
from coach.ledger.plan import Plan, finished_form
from coach.recipe.reader import read_recipe_file
from tests.drawing.chains import bar

RECIPES = Path(__file__).resolve().parents[2] / "recipes"


@pytest.fixture(scope="module")
def adze() -> Plan:
    return look_back(read_recipe_file(RECIPES / "carpenters-adze.yaml"))


def test_the_finished_zones_follow_each_other_as_on_the_bar(adze: Plan) -> None:
    solids = piece_solids(adze, "body", None)
    assert [solid.zone for solid in solids] == ["poll", "eye", "blade", "bit"]
    # The nominal lengths of the recipe's own drawing.
    assert [solid.form.length_mm for solid in solids] == [36, 54, 95, 60]


def test_steel_laid_on_is_told_with_its_share_at_the_free_ends(adze: Plan) -> None:
    poll, eye, blade, bit = piece_solids(adze, "body", None)
    assert (poll.steel, eye.steel, blade.steel, bit.steel) == (True, False, False, True)
    steel = plan_view((poll, eye, blade, bit)).steel
    assert min(x for x, _ in steel[0]) == 0
    assert max(x for x, _ in steel[1]) == 245
    assert 0 < poll.laid_share < 1
    assert 0 < bit.laid_share < 1


def test_the_first_zone_is_drawn_down_towards_the_end_of_the_bar() -> None:
    plan = look_back(read_recipe_file(RECIPES / "cross-peen-hammer.yaml"))
    view = side_view(piece_solids(plan, "body", None))
    heights = {x: max(y for at, y in view.outlines[0] if at == x) for x in (0, 50)}
    # The recipe's peen: 34 mm thick at the shoulder, 12 mm at its end.
    assert heights == {0: 6, 50: 17}


def test_a_piece_of_hard_steel_is_steel_throughout(adze: Plan) -> None:
    (face,) = piece_solids(adze, "face", None)
    assert face.steel
    assert face.laid_share == 0


def test_steel_that_is_still_a_piece_of_its_own_is_not_drawn_as_laid(adze: Plan) -> None:
    forms = {zone: finished_form(adze.recipe, zone) for zone in adze.recipe.drawing}
    assert not any(solid.steel for solid in piece_solids(adze, "body", forms))
    del forms["edge"]
    assert [solid.zone for solid in piece_solids(adze, "body", forms) if solid.steel] == ["bit"]


def test_the_sizes_of_the_moment_take_the_place_of_the_drawings(adze: Plan) -> None:
    measured = bar(41, 19, 88)
    solids = piece_solids(adze, "body", {"blade": measured})
    assert solids[2].form is measured
    assert solids[3].form == finished_form(adze.recipe, "bit")


def test_the_stock_is_the_length_to_mark_out_with_its_marks(adze: Plan) -> None:
    view = plan_view(stock_solids(adze, "body"))
    piece = adze.pieces["body"]
    assert view.length_mm == pytest.approx(piece.length.value)
    assert view.height_mm == pytest.approx(45)  # the recipe's bar is 45 wide
    assert [mark.x_mm for mark in view.marks[1:]] == pytest.approx(
        [mark.at.value for mark in piece.marks[:-1]]
    )
