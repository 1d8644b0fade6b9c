"""A tolerance that is narrower than the hand is told once, with the figures of the drawing."""

from __future__ import annotations

import pytest

from coach.bench.planned import planned_tool
from coach.ledger.looking_back import look_back
from coach.recipe.reader import read_recipe
from coach.telling.words import write

TOOL = """\
recipe: Tool
pieces:
  tool:
    metal: "1075"
    bar: 25 x 5
    zones:
      tang: 10 {tang} x 5 ±0.6 to 5 ±0.8 x 3.5 ±0.6, long 90 ±10
      blade: 25 x 5, long 120 ±10
usual: {{at: light orange}}
steps:
  - mark out: tool
  - cut: blade, cold
  - taper: tang{step}
  - straighten: blade, bow at most 1, 1 heat, also hot tang
  - haft: tang, haft long 120 ±5
"""


@pytest.mark.parametrize(
    ("tang", "step", "told"),
    [
        ("±0.01", "", "The width of tang, 10.00 ±0.01 mm, is held closer"),
        ("±1", ", 10 ±0.01 x 5 to 5 x 3.5", "The width of tang, 10.00 ±0.01 mm, is held closer"),
    ],
)
def test_it_is_told_once(tang: str, step: str, told: str) -> None:
    plan = look_back(read_recipe(TOOL.format(tang=tang, step=step), "tool.yaml"))
    (found,) = [one for one in planned_tool(plan).findings if "held closer" in write(one.sentence)]
    assert write(found.sentence).startswith(told)
    assert found.line == (7 if not step else 13)
