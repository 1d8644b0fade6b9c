"""The steel proves to be another one while it is forged: said in a line, and the steps ahead go by it."""

from __future__ import annotations

import pytest

from coach.ledger.verdict import PlanState
from coach.quantities.refusal import Refusal
from coach.recipe.reader import read_recipe
from coach.telling.words import write
from coach.telling.writing import Shown
from tests.bench.jobs import at_step_of


def test_a_grade_that_cracks_in_the_recipe_s_water_is_shown_before_it_is_taken() -> None:
    """The mattock is of C45, which is quenched in water; 4140 cracks there, by its own card."""
    job = at_step_of("mattock", 5)
    was = job.standing()
    shown = job.change_told("grade 4140")
    assert [tuple(one) for one in shown.changes.grades] == [("mattock", "C45", "4140")]
    assert shown.before.verdict is was.verdict
    assert shown.after.verdict is PlanState.OFF_PLAN
    assert job.standing() is was, "nothing is entered yet"
    told = write(job.change("grade 4140").did, Shown("mm"))  # type: ignore[arg-type]
    assert "the mattock is 4140, not C45" in told
    now = job.standing()
    assert now.verdict is PlanState.OFF_PLAN
    assert "4140 is quenched in oil" in str(now.reason)
    assert [size.expected for size in now.sizes] == [size.expected for size in was.sizes]
    assert read_recipe(job.forged(), "mattock.yaml").pieces["mattock"].metal == "4140"
    job.strike()
    assert job.standing().verdict is was.verdict
    assert job.recipe.pieces["mattock"].metal == "C45"


@pytest.mark.parametrize(
    "name", ["bolt-tongs", "cold-chisel", "drawknife", "mattock", "hay-fork", "ring-and-chain"]
)
def test_each_piece_of_the_shelf_can_prove_to_be_of_another_steel(name: str) -> None:
    job = at_step_of(name, 4)
    pieces = job.recipe.pieces
    first = next(iter(pieces))
    job.change(f"grade {first} = 1084")
    assert job.recipe.pieces[first].metal == "1084"
    row = [one.metal for one in job.recipe.pieces.values() if one.row == pieces[first].row]
    assert set(row) == {"1084"}, "pieces of one bar are of one steel"


def test_of_layers_no_one_grade_is_told() -> None:
    with pytest.raises(Refusal, match="a piece of one metal"):
        at_step_of("layered-knife", 8).change_told("grade 1095")


def test_of_several_pieces_it_is_said_which() -> None:
    job = at_step_of("carpenters-adze", 4)
    with pytest.raises(Refusal, match="grade body = 1084: say of which: body, face, edge"):
        job.change_told("grade 1084")
    assert [one.piece for one in job.change_told("grade edge = 1095").changes.grades] == ["edge"]
    for line, why in (
        ("grade edgy = 1095", "did you mean edge"),
        ("grade edge = 1084", "is 1084 already"),
        ("grade edge = X99", "There is no grade"),
    ):
        with pytest.raises(Refusal, match=why):
            job.change_told(line)
