"""A job under way keeps its recipe as a tree and comes back without YAML or pydantic."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import pytest

from coach.recipe.build import build
from coach.recipe.faults import RecipeFaults
from coach.recipe.reader import file_text, read_recipe, read_tree
from tests.recipes.texts import HAMMER, PIN

BUNDLED = sorted((Path(__file__).parents[2] / "recipes").glob("*.yaml"))


@pytest.mark.parametrize("text", [PIN, HAMMER, *map(file_text, BUNDLED)])
def test_a_tree_that_went_through_json_builds_the_same_recipe(text: str) -> None:
    kept = json.loads(json.dumps(read_tree(text, "job.yaml")))
    assert build(kept, "job.yaml", text) == read_recipe(text, "job.yaml")


def test_a_kept_tree_that_no_longer_fits_is_refused_with_the_lines_of_its_text() -> None:
    text = HAMMER.replace("metal: wrought iron", "metal: mithril")
    tree = read_tree(HAMMER, "job.yaml")
    tree["pieces"]["body"]["metal"] = "mithril"  # type: ignore[index]
    with pytest.raises(RecipeFaults) as refused:
        build(tree, "job.yaml", text)
    (fault,) = refused.value.faults
    line, row = next((n, row) for n, row in enumerate(text.splitlines(), 1) if "mithril" in row)
    assert (fault.line, fault.column) == (line, row.index("mithril") + 1)


def test_a_kept_tree_whose_text_is_lost_is_refused_all_the_same() -> None:
    with pytest.raises(RecipeFaults) as refused:
        build({"format": "1"}, "job.yaml", "\t")
    assert {(fault.line, fault.column) for fault in refused.value.faults} == {(1, 1)}


def test_building_loads_neither_pydantic_nor_yaml() -> None:
    code = (
        "import json, sys\n"
        "from coach.recipe.build import build\n"
        "tree, text = json.load(sys.stdin)\n"
        "build(tree, 'job.yaml', text)\n"
        "print([name for name in ('pydantic', 'yaml', 'pint', 'textual') if name in sys.modules])\n"
    )
    given = json.dumps([read_tree(HAMMER, "job.yaml"), HAMMER])
    done = subprocess.run(
        [sys.executable, "-c", code], input=given, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stderr
    assert done.stdout.strip() == "[]"
