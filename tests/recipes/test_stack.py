"""A stack: layers of several metals in the place of a bar, counted through their folds."""

from __future__ import annotations

from pathlib import Path

import pytest

from coach.bench.planned import planned_tool
from coach.ledger.hot_work import grades_in
from coach.ledger.looking_back import look_back
from coach.ledger.plan import Plan
from coach.recipe.faults import RecipeFaults
from coach.recipe.reader import read_recipe, read_recipe_file
from coach.recipe.writing import write_recipe
from coach.telling.plan import bar_text
from coach.telling.words import write
from coach.telling.writing import Shown
from tests.recipes.building import spelt_out

SMALL = Path(__file__).with_name("small")
BILLET = """
recipe: Billet
scale: none
pieces:
  billet:
    stack:
      - 1084, 30 x 5
      - wrought iron, 30 x 3
      - 1084, 30 x 5
    size: 30 x 12, long 100
steps:
  - weld shut: billet, 30 x 13, squeeze 0 %
  - draw: billet
"""


@pytest.fixture
def folded() -> Plan:
    return look_back(read_recipe_file(SMALL / "layered-billet.yaml"))


def test_the_stack_is_as_long_as_its_metal_asks_and_weighs_what_its_layers_weigh() -> None:
    # By hand: 30 · 12 · 100 = 36 000 mm³ in a stack of 30 × 13 is 92.31 mm; of it 10/13 at 7.85 g/cm³ and
    # 3/13 of wrought iron at 7.70: 217.4 + 64.0 = 281.4 g.
    piece = look_back(read_recipe(BILLET, "billet.yaml")).pieces["billet"]
    assert piece.length.value == pytest.approx(92.308, abs=1e-3)
    assert piece.mass.value == pytest.approx(281.35, abs=0.01)


def test_layers_that_are_alike_are_taken_together_and_told_in_their_order() -> None:
    piece = look_back(read_recipe(BILLET, "billet.yaml")).pieces["billet"]
    assert bar_text(piece, Shown("mm")) == (
        "2 of 1084, 30 × 5 mm; 1 of wrought iron, 30 × 3 mm, each 92.3 mm long, 281 g in all. "
        "3 layers, from below 1084, wrought iron, 1084."
    )


def test_a_fold_doubles_the_layers_and_a_draw_leaves_them(folded: Plan) -> None:
    assert (len(folded.recipe.pieces["billet"].layers), folded.pieces["billet"].layers) == (5, 10)
    told = [" ".join(map(write, one.step.know)) for one in planned_tool(folded).steps]
    assert ["layers of the stack" in words for words in told] == [False, True, False, True, True, False]
    assert [
        words.split(" layers of the stack")[0].split()[-1] for words in told if "of the stack" in words
    ] == [
        "5",
        "10",
        "10",
    ]


def test_every_metal_of_a_stack_lies_in_its_fire_and_the_hard_one_names_it(folded: Plan) -> None:
    assert folded.recipe.pieces["billet"].metal == "1084"
    assert {one.name for one in grades_in(folded, folded.recipe.steps[1])} == {"1084", "mild steel"}


def test_a_stack_is_written_back_as_it_was_read() -> None:
    told = spelt_out(BILLET)
    assert spelt_out(write_recipe(told)) == told


@pytest.mark.parametrize(
    ("written", "instead", "says"),
    [
        (
            "1084, 30 x 5\n      - wrought",
            "1084, 28 x 5\n      - wrought",
            ":8:9: the layers of a stack are all",
        ),
        ("- wrought iron, 30 x 3", "- wrought iron, round 30", "is no form of a layer"),
        ("- wrought iron, 30 x 3", "- wrought iorn, 30 x 3", ":8:9: there is no grade “wrought iorn”"),
        ("- wrought iron, 30 x 3", "- 30 x 3", "there is no grade “30 x 3”"),
        ("    stack:", "    bar: 30 x 13\n    stack:", ":6:5: a stack says the bar of each layer"),
        ("    stack:", "    metal: 1084\n    stack:", ":6:5: a stack says the metal of each layer"),
        ("      - wrought iron, 30 x 3\n      - 1084, 30 x 5\n", "", ":6:5: a stack has two layers at least"),
    ],
)
def test_what_is_no_stack_is_told_with_its_place(written: str, instead: str, says: str) -> None:
    text = BILLET.replace(written, instead, 1)
    assert text != BILLET
    with pytest.raises(RecipeFaults) as refused:
        read_recipe(text, "billet.yaml")
    assert says in "\n".join(map(str, refused.value.faults))
