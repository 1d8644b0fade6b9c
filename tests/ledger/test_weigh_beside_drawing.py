"""A size that the steps leave beside the drawing is told at the step that last makes it."""

from __future__ import annotations

import pytest

from coach.bench.planned import planned_tool
from coach.ledger.looking_back import look_back
from coach.ledger.weigh import Cannot
from coach.recipe.reader import read_recipe

LEAF = """\
recipe: Leaf
pieces:
  leaf:
    metal: C45
    bar: 30 x 8
    size: 30 x 5 ±0.5, long 120 ±12
steps:
  - cut: leaf, cold
  - draw: leaf, thick 6.5, wide 30
"""


@pytest.mark.parametrize(
    "after", ["", "straighten: leaf, 1 heat", "inspect: leaf", "fit: leaf, gap at most 0.5", "sharpen: leaf"]
)
def test_it_is_told_where_the_size_is_made_and_not_at_what_moves_nothing(after: str) -> None:
    """The draw leaves 6.5 mm where 5 mm is drawn; what follows moves no metal (by definition)."""
    text = LEAF + (f"  - {after}\n" if after else "")
    findings = planned_tool(look_back(read_recipe(text, "leaf.yaml"))).findings
    assert [(one.step, one.line) for one in findings if one.what is Cannot.MAKE_DRAWING] == [(2, 9)]
