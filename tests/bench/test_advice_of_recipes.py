"""What is told of the steps of the bundled recipes is what hand and hammer can do."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from coach.bench.planned import planned_tool
from coach.fire.passes import FOLDS_FROM
from coach.ledger.looking_back import look_back
from coach.places import bundled_recipes
from coach.recipe.model import Step
from coach.recipe.reader import read_recipe_file
from coach.telling.words import write

#: The face and the peen of hand hammers of 1 to 2 kg are 25 to 40 mm long (common practice, no source).
LONGEST_BITE_MM = 40.0


RECIPES = sorted(bundled_recipes().glob("*.yaml"))
#: Each weld of two metals, a face or an edge, as its drawing names them; the others have none.
WELDS = {"carpenters-adze": 2, "cross-peen-hammer": 2, "hedging-hatchet": 1}
#: The first weld of a stack of two metals.
STACKS = {"layered-knife": 1}


def advice(path: Path) -> list[tuple[Step, str]]:
    plan = look_back(read_recipe_file(path))
    told = zip(plan.recipe.steps, planned_tool(plan).steps, strict=True)
    return [(step, write(words)) for step, planned in told for words in planned.step.advice]


@pytest.mark.parametrize("path", RECIPES, ids=lambda path: path.stem)
def test_no_hand_bites_longer_than_its_hammer(path: Path) -> None:
    bites = [
        float(found)
        for step, told in advice(path)
        if "bite_mm" not in step.amounts  # a fuller of a length that the recipe names bites as long as that
        for found in re.findall(r"Bite about ([\d.]+) mm", told)
    ]
    assert bites or path.stem not in WELDS  # of those the heads are drawn down from flat bar
    assert all(bite <= LONGEST_BITE_MM for bite in bites)


@pytest.mark.parametrize("path", RECIPES, ids=lambda path: path.stem)
def test_no_bar_in_hand_is_wished_to_be_another(path: Path) -> None:
    assert not [told for _, told in advice(path) if "squarer bar" in told or "begin with a bar" in told]


@pytest.mark.parametrize("path", RECIPES, ids=lambda path: path.stem)
def test_nothing_is_told_to_stand_on_edge_beyond_what_folds(path: Path) -> None:
    stands = [
        float(found)
        for _, told in advice(path)
        for found in re.findall(r"([\d.]+) times its width: it may", told)
    ]
    assert all(one <= FOLDS_FROM for one in stands)


@pytest.mark.parametrize("path", RECIPES, ids=lambda path: path.stem)
def test_each_weld_of_two_metals_is_tried_on_a_coupon_first(path: Path) -> None:
    told = [step.number for step, told in advice(path) if "weld a coupon of both" in told]
    steps = look_back(read_recipe_file(path)).recipe.steps
    stacks = [step.number for step in steps if step.operation == "weld shut"][: STACKS.get(path.stem, 0)]
    welds = sorted([*stacks, *(step.number for step in steps if step.lays)])
    assert len(told) == len(welds) == WELDS.get(path.stem, 0) + len(stacks)
    assert all(before < weld for before, weld in zip(told, welds, strict=True))


@pytest.mark.parametrize("path", RECIPES, ids=lambda path: path.stem)
def test_a_coupon_that_is_broken_has_its_caution_once(path: Path) -> None:
    for planned in planned_tool(look_back(read_recipe_file(path))).steps:
        told = " ".join(map(write, planned.step.advice))
        cautions = " ".join(planned.step.cautions)
        assert cautions.count("A coupon can fly") == ("weld a coupon of both" in told)
