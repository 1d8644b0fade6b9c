"""Steps and drawing can be changed once pieces are one: what was laid on has no bar of its own any more."""

from __future__ import annotations

import pytest

from coach.places import bundled_recipes
from coach.quantities.refusal import Refusal
from coach.recipe.reader import read_recipe_file
from tests.bench.jobs import at_step_of

PATHS = sorted(bundled_recipes().glob("*.yaml"))
#: Every step of the shelf behind one that lays a zone on another, or splits it.
AFTER_A_JOIN = [
    pytest.param(path.stem, step.number + 1, id=f"{path.stem}-{step.number + 1}")
    for path in PATHS
    for steps in [read_recipe_file(path).steps]
    for step in steps[:-1]
    if step.lays is not None or step.parts or step is steps[-2]
]


@pytest.mark.parametrize(("name", "number"), AFTER_A_JOIN)
def test_a_change_is_told_or_refused(name: str, number: int) -> None:
    job = at_step_of(name, number)
    steps = job.recipe.steps
    hot = [step for step in steps[number - 1 :] if step.heats]
    lines = [f"again {number - 1}", *(f"heats {step.number} = {step.heats + 1}" for step in hot[:1])]
    told = 0
    for line in lines:
        try:
            job.change_told(line)
        except Refusal:
            continue
        told += 1
    assert told
