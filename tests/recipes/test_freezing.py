"""A job keeps its recipe's meaning; what is kept must be the recipe itself."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from coach.places import bundled_recipes
from coach.recipe.freezing import NotThawed, frozen, thawed
from coach.recipe.reader import read_recipe_file

RECIPES = sorted(bundled_recipes().glob("*.yaml"))


@pytest.mark.parametrize("path", RECIPES, ids=lambda path: path.stem)
def test_a_recipe_comes_back_from_json_as_it_was(path: Path) -> None:
    recipe = read_recipe_file(path)
    kept = json.loads(json.dumps(frozen(recipe), allow_nan=False))
    assert thawed(kept, recipe.text, recipe.source) == recipe


@pytest.mark.parametrize(
    "spoil",
    [
        {"steps": [{"number": 1}]},
        {"pieces": 4},
        {"something_newer": True},
        {"drawing": {"poll": {}}},
        {"scale": {"forging_mm": 0.03, "unheard_of": 1}},
    ],
)
def test_what_another_version_kept_is_refused_and_never_half_read(spoil: dict[str, object]) -> None:
    recipe = read_recipe_file(RECIPES[0])
    with pytest.raises(NotThawed):
        thawed({**frozen(recipe), **spoil}, recipe.text, recipe.source)


def test_an_empty_body_is_refused() -> None:
    with pytest.raises(NotThawed):
        thawed({}, "", "")
