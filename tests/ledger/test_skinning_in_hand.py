"""A steel's skin does not depend on which step is in hand while all goes as planned."""

from __future__ import annotations

from pathlib import Path

import pytest

from coach.ledger.looking_back import look_back
from coach.ledger.skinning import skins
from coach.recipe.reader import read_recipe_file

RECIPES = sorted((Path(__file__).parents[2] / "recipes").glob("*.yaml"))


@pytest.mark.parametrize("recipe", RECIPES, ids=lambda path: path.stem)
def test_a_step_that_is_begun_and_has_no_heat_yet_leaves_the_skin_as_planned(recipe: Path) -> None:
    plan = look_back(read_recipe_file(recipe))
    planned = {(one.steel, one.grinding.step): one.grinding.skin_mm for one in skins(plan) if one.grinding}
    for step in plan.recipe.steps:
        for skin in skins(plan, step.number - 1, {step.number: []}):
            grinding = skin.grinding
            if grinding is not None and (skin.steel, grinding.step) in planned:
                wanted = planned[skin.steel, grinding.step]
                assert grinding.skin_mm == pytest.approx(wanted, rel=1e-6), (step.number, skin.steel)
