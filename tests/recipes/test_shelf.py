"""The shelf: every recipe that comes with the coach, forged from bar to last check by a made-up hand."""

from __future__ import annotations

from pathlib import Path

import pytest

from coach.drawing.job import finished_views, host_pieces
from coach.forms import kinds
from coach.ledger.looking_back import look_back
from coach.ledger.verdict import PlanState
from coach.operations import operations
from coach.places import bundled_recipes
from coach.recipe.reader import read_recipe_file
from tests.recipes.walking import forged

RECIPES = sorted(bundled_recipes().glob("*.yaml"))


@pytest.mark.parametrize("path", RECIPES, ids=lambda path: path.stem)
def test_forged_as_planned_it_comes_out_as_drawn(path: Path) -> None:
    standing = forged(path.read_text(encoding="utf-8"), path.name).standing()
    assert standing.step is None
    assert standing.verdict is PlanState.ON_PLAN, standing.reason


def test_between_them_every_operation_and_every_form_is_used() -> None:
    plans = [look_back(read_recipe_file(path)) for path in RECIPES]
    stages = [stage for plan in plans for way in plan.stages.values() for stage in way]
    assert {stage.step.operation for stage in stages} >= set(operations())
    assert {form.KIND for stage in stages for form in (stage.form_before, stage.form_after)} >= set(kinds())


@pytest.mark.parametrize("path", RECIPES, ids=lambda path: path.stem)
def test_the_finished_pieces_have_their_pictures(path: Path) -> None:
    plan = look_back(read_recipe_file(path))
    for piece in host_pieces(plan):
        assert len(finished_views(plan, piece)) == 2


@pytest.mark.parametrize("path", RECIPES, ids=lambda path: path.stem)
def test_it_says_where_its_sizes_are_from(path: Path) -> None:
    head = path.read_text(encoding="utf-8").split("recipe:")[0]
    told = path.stem in OLDER or "# Sizes" in head
    assert told, "the first lines name a standard or a handbook, or say that the drawing is our own"


#: Those whose sources stand beside their sizes.
OLDER = ("carpenters-adze", "cross-peen-hammer", "first-hook", "hedging-hatchet")


def test_the_socket_of_the_hay_fork_opens_away_from_its_neck() -> None:
    plan = look_back(read_recipe_file(bundled_recipes() / "hay-fork.yaml"))
    outline = finished_views(plan, "fork")[0].outlines[-1]
    at_end = [y for x, y in outline if x == pytest.approx(max(x for x, _ in outline))]
    assert max(at_end) - min(at_end) == pytest.approx(36)
