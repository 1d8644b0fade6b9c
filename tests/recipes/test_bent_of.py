"""What is bent may say the bar that it is bent of, and a ring of round bar is a ring."""

from __future__ import annotations

import pytest

from coach.ledger.looking_back import look_back
from coach.operations import operation
from coach.operations.does import Does
from coach.recipe.reader import read_recipe
from coach.telling.words import write
from tests.recipes.test_faults import faults_of

TOOL = """
recipe: Hook
pieces:
  hook:
    metal: mild steel
    bar: {bar}
    zones:
      end: {end}
      shank: {bar}, long 100
steps:
  - cut: shank, cold
  - {step}
"""


@pytest.mark.parametrize(
    ("bar", "said", "spelt", "step"),
    [
        (
            "round 8",
            "coil of round 8, inside 18, pitch 11, wound long 90",
            "coil, inside 18, pitch 11, diameter 8, wound long 90",
            "coil: end",
        ),
        (
            "round 8",
            "scroll of round 8, across 72, eye 18, pitch 14",
            "round scroll, across 72, eye 18, pitch 14, diameter 8",
            "scroll: end",
        ),
        (
            "20 x 6",
            "scroll of 20 x 6, across 72, eye 18, pitch 14",
            "scroll, across 72, eye 18, pitch 14, wide 20, thick 6",
            "scroll: end",
        ),
        (
            "square 8",
            "scroll of square 8, across 72, eye 18, pitch 14",
            "scroll, across 72, eye 18, pitch 14, thick 8",
            "scroll: end",
        ),
        (
            "round 8",
            "link of round 8, inner long 60, inner wide 20",
            "link, inner long 60, inner wide 20, diameter 8",
            "bend: end, link",
        ),
    ],
)
def test_it_means_the_same_as_each_size_behind_its_word(bar: str, said: str, spelt: str, step: str) -> None:
    short, long = (
        read_recipe(TOOL.format(bar=bar, end=end, step=step), "hook.yaml").drawing["end"]
        for end in (said, spelt)
    )
    assert short.shape == long.shape
    assert short.limits == long.limits


def test_a_bar_that_it_cannot_be_made_of_is_said_in_one_sentence() -> None:
    text = TOOL.format(
        bar="20 x 6", end="coil of 20 x 6, inside 18, pitch 11, wound long 90", step="coil: end"
    )
    (fault,) = faults_of(text)
    assert (fault.line, fault.column) == (8, 12)
    assert write(fault.message) == "a coil has no flat bar: write coil, and each of its sizes behind its word"


def test_a_ring_of_round_bar_may_be_bent_to_a_ring() -> None:
    text = TOOL.format(bar="round 8", end="ring of round 8, inside 60", step="bend: end, ring")
    (stage,) = [
        one for one in look_back(read_recipe(text, "hook.yaml")).stages["end"] if one.step.does(Does.BENDS)
    ]
    assert stage.form_after.KIND == "round ring"


def test_how_a_coil_is_wound_is_told_with_its_step() -> None:
    text = TOOL.format(
        bar="round 8", end="coil of round 8, inside 18, pitch 11, wound long 96", step="coil: end"
    )
    (stage,) = [
        one for one in look_back(read_recipe(text, "hook.yaml")).stages["end"] if one.step.does(Does.BENDS)
    ]
    # Its three heats leave 8 - 3 · 2 · 0.0336 = 7.8 mm of bar (by hand; the law of docs/recipes.md), whose
    # middle lies nearer to the mandrel: a turn is √((π · 25.8)² + 11²) = 81.8, and (96 - 7.8 · 0.991) / 11
    # = 8.02 of them are 656 (as in tests/forms/test_coils.py).
    told = [write(one) for one in operation("coil").know(stage.form_before, stage.form_after)]
    assert told == ["656.5 mm of bar go round a mandrel of 18 mm in 8.02 turns, 81.8 mm of it to each."]
