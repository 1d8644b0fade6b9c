"""A temper of the shelf asks for a hardness that its own heat leaves, by the table on its own sheet."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from coach.bench.planned import planned_tool
from coach.ledger.looking_back import look_back
from coach.places import bundled_recipes
from coach.recipe.reader import read_recipe
from coach.telling.words import write
from coach.telling.writing import Shown

SHELF = sorted(bundled_recipes().glob("*.yaml"))
_LEFT = re.compile(r"is left at (\d+) ±\d+ HRC")


@pytest.mark.parametrize("path", SHELF, ids=lambda path: path.stem)
def test_the_middle_of_what_it_leaves_is_within_the_hardness_that_is_wanted(path: Path) -> None:
    planned = planned_tool(look_back(read_recipe(path.read_text(encoding="utf-8"), path.name)))
    for step in (one.step for one in planned.steps):
        wanted = [one.wanted.limits for one in step.targets if one.dimension == "hardness"]
        left = [int(found[1]) for words in step.know if (found := _LEFT.search(write(words, Shown())))]
        if step.operation != "temper" or not wanted or not left:
            continue
        for hrc in left:
            assert wanted[0].low <= hrc <= wanted[0].high, (step.title, left)
