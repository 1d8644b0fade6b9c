"""The heats of the list of recipes are those of the plan, where a recipe leaves them to be reckoned."""

from __future__ import annotations

from pathlib import Path

from coach.bench.heats_planned import heats_planned
from coach.bench.planned import planned_tool
from coach.ledger.looking_back import look_back
from coach.recipe.library import recipes_in
from coach.recipe.reader import read_recipe

HEAVY = """\
recipe: Heavy bar
pieces:
  bar:
    metal: mild steel
    bar: 60 x 30, long 400
    size: 40 x 12, long 300 ±30
usual: {at: light yellow, kerf: 2}
steps:
  - mark out: bar
  - draw: bar
"""


def test_the_list_tells_the_heats_that_the_plan_is_made_with(tmp_path: Path) -> None:
    (tmp_path / "heavy.yaml").write_text(HEAVY)
    (entry,) = recipes_in([tmp_path], heats_planned)
    recipe = read_recipe(HEAVY, "heavy.yaml")
    planned = planned_tool(look_back(recipe))
    usual = sum(step.heats for step in recipe.steps)
    assert entry.heats == sum(one.step.heats_planned for one in planned.steps)
    assert entry.heats > usual  # 1800 mm² drawn to 480 take more than a draw's usual heats


def test_what_cannot_be_reckoned_has_the_heats_that_it_says(tmp_path: Path) -> None:
    text = HEAVY.replace("draw: bar", "draw: bar, 4 heats").replace("60 x 30", "10 x 10")
    (tmp_path / "thin.yaml").write_text(text)
    (entry,) = recipes_in([tmp_path], heats_planned)
    assert entry.heats == 4
