"""Of a bar that is turned a quarter nothing is told that runs wide; of one that is struck flat it is."""

from __future__ import annotations

import pytest

from coach.bench.planned import planned_tool
from coach.ledger.looking_back import look_back
from coach.recipe.reader import read_recipe
from coach.telling.words import write


def advice(bar: str, size: str) -> str:
    text = (
        f"recipe: Spike\npieces:\n  spike:\n    metal: mild steel\n    bar: {bar}\n    size: {size}\n"
        "steps:\n  - cut: spike, cold\n  - taper: spike, 4 heats, at orange\n"
    )
    hot = planned_tool(look_back(read_recipe(text, "spike.yaml"))).steps[1].step.hot
    assert hot is not None
    return " ".join(map(write, hot.advice))


# Common practice, no source: a square point is turned a quarter after each blow or two, and stays square.
@pytest.mark.parametrize("bar", ["square 14", "15 x 14"])
def test_a_square_point_that_is_turned_does_not_run_wide(bar: str) -> None:
    told = advice(bar, "14 x 14 to 3 x 3, long 100 ±9")
    assert "Turn a quarter" in told
    assert "Let be" not in told


@pytest.mark.parametrize(
    ("bar", "size"),
    [("30 x 8", "30 x 8 to 30 x 3, long 100 ±9"), ("20 x 20", "20 x 20 to 20 x 4, long 90 ±9")],
)
def test_an_edge_that_is_thinned_lying_flat_does(bar: str, size: str) -> None:
    assert "Let be, the end width runs to about" in advice(bar, size)
