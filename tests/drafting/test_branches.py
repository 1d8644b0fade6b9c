"""What is proposed for a zone that splits into others."""

from __future__ import annotations

import pytest

from coach.drafting.answers import Answers, CannotDraft
from coach.drafting.draft import drafted
from coach.recipe.reader import read_recipe
from coach.telling.words import write

HOOK = Answers(
    "Leaf hook",
    "C45",
    "20 x 8",
    {
        "shank": "square 9, long 120",
        "end": "20 x 8, splits into spike 46 % and leaf",
        "spike": "round 7 to 4, long 120",
        "leaf": "12 x 3, long 98",
    },
)


def test_it_is_split_and_then_each_branch_is_made() -> None:
    recipe = read_recipe(drafted(HOOK).text, "hook.yaml")
    done = [(step.operation, step.zones[0]) for step in recipe.steps]
    assert done[-4:] == [("cut", "end"), ("split", "end"), ("taper", "spike"), ("spread", "leaf")]


def test_what_is_hardened_is_a_branch_and_not_what_was_split() -> None:
    recipe = read_recipe(drafted(HOOK._replace(hard="spike")).text, "hook.yaml")
    normalise = next(step for step in recipe.steps if step.operation == "normalise")
    assert normalise.heated == ("shank", "spike", "leaf")
    with pytest.raises(CannotDraft) as refused:
        drafted(HOOK._replace(hard="end"))
    assert "end is split into spike and leaf" in write(refused.value.words)


def test_no_steel_is_laid_on_a_branch() -> None:
    steel = HOOK._replace(laid_on="leaf", steel="1084", steel_bar="12 x 3", steel_size="12 x 3, long 40")
    with pytest.raises(CannotDraft) as refused:
        drafted(steel)
    assert "write its weld into the file" in write(refused.value.words)
