"""What an editor says of a recipe by the schema is what the reader says of its shape.

The schema is judged by jsonschema, an independent validator.
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
import yaml
from jsonschema import Draft202012Validator

from coach.places import bundled_recipes
from coach.recipe.faults import RecipeFaults
from coach.recipe.reader import read_recipe
from coach.recipe.schema import SCHEMA_FILE, check
from coach.recipe.tree import read_plain
from tests.recipes.slips import SLIPS
from tests.recipes.texts import HAMMER, PIN, WEDGE

SCHEMA = json.loads(SCHEMA_FILE.read_text(encoding="utf-8"))
FILES = sorted((*bundled_recipes().glob("*.yaml"), *(Path(__file__).parent / "small").glob("*.yaml")))
SOUND = {path.stem: path.read_text(encoding="utf-8") for path in FILES} | {
    "pin": PIN,
    "hammer": HAMMER,
    "wedge": WEDGE,
    "a grade that is a number": PIN.replace("metal: mild steel", "metal: 1075"),
}


def complaints(text: str) -> list[str]:
    """What an editor would underline."""
    tree: Any = yaml.safe_load(text)
    return [error.message for error in Draft202012Validator(SCHEMA).iter_errors(tree)]


def test_it_is_a_schema_of_its_dialect() -> None:
    Draft202012Validator.check_schema(SCHEMA)


@pytest.mark.parametrize("name", SOUND)
def test_nothing_is_said_against_a_recipe_that_the_reader_takes(name: str) -> None:
    assert read_recipe(SOUND[name], f"{name}.yaml")
    assert complaints(SOUND[name]) == []


@pytest.mark.parametrize("at", range(len(SLIPS)))
def test_a_fault_of_shape_is_one_for_the_editor_too_and_the_other_way_round(at: int) -> None:
    base, was, now, *_ = SLIPS[at]
    text = base.replace(was, now, 1)
    try:
        told = complaints(text)
    except yaml.YAMLError:
        return  # no file at all, for either of them
    if check(read_plain(text, "x.yaml").tree):
        assert told
    elif told:  # numbers that want a unit, which the reader of lines refuses
        with pytest.raises(RecipeFaults):
            read_recipe(text, "x.yaml")
