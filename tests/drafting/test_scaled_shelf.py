"""Every recipe of the shelf passes its check a quarter smaller, a fifth smaller and a quarter larger."""

from __future__ import annotations

import pytest

from coach.drafting.alike import made_like
from coach.drafting.checked import checked
from coach.ledger.verdict import PlanState
from coach.places import bundled_recipes
from coach.recipe.reader import read_recipe

TEXTS = {path.stem: path.read_text(encoding="utf-8") for path in sorted(bundled_recipes().glob("*.yaml"))}


@pytest.mark.parametrize("scale", [0.75, 0.8, 1.25])
@pytest.mark.parametrize("name", TEXTS)
def test_a_recipe_of_the_shelf_made_larger_or_smaller_is_not_refused(name: str, scale: float) -> None:
    planned = checked(made_like(TEXTS[name], name, scale=scale), name).planned
    assert planned.findings == ()
    assert planned.verdict is not PlanState.OFF_PLAN


@pytest.mark.parametrize(
    ("name", "scale"), [("scrolled-bracket", 0.9), ("twisted-poker", 0.8), ("drawknife", 0.75)]
)
def test_what_its_next_rolled_bar_leaves_thicker_is_drawn_first(name: str, scale: float) -> None:
    """Once a chance of 31, 88 and 64 %: a punch and a twist leave a bar of 6 mm that is drawn as 5.4 so."""
    chance = checked(made_like(TEXTS[name], name, scale=scale), name).planned.chance
    assert chance is not None
    assert chance > 0.88


def test_a_smaller_hammer_keeps_the_steel_that_its_fires_take() -> None:
    """5.6 mm remain (0.8 · 7), 2.1 are ground, 0.3 scaled, 0.1 squeezed, 0.8 of barbs: 8.9, not 0.8 · 11."""
    recipe = read_recipe(made_like(TEXTS["cross-peen-hammer"], "hammer", scale=0.8), "hammer")
    face = recipe.drawing["face"]
    assert face.limits["thickness"].nominal == pytest.approx(8.9, abs=0.05)
    (dressed,) = (step for step in recipe.steps if step.zones == ("face",) and "thickness" in step.targets)
    assert dressed.targets["thickness"].nominal == face.limits["thickness"].nominal


def test_a_smaller_stack_comes_out_of_its_weld_as_its_layers_are_rolled() -> None:
    """0.8 · 30 x 4 and 30 x 1.5 are rolled as 25 x 4 and 25 x 1.5: 25 wide, and thick as before."""
    recipe = read_recipe(made_like(TEXTS["layered-knife"], "knife", scale=0.8), "knife")
    weld = next(step for step in recipe.steps if step.operation == "weld shut")
    assert weld.targets["width"].nominal == pytest.approx(25)
    assert weld.targets["thickness"].nominal == pytest.approx(22)


def test_a_smaller_billet_is_drawn_as_thick_as_what_is_forged_of_it() -> None:
    """The stone takes 1.4 mm of a smaller blade too: 0.8 · 4.6 = 3.7 and 1.4 are 5.1, not 0.8 · 6 = 4.8."""
    recipe = read_recipe(made_like(TEXTS["layered-knife"], "knife", scale=0.8), "knife")
    (bevel,) = (step for step in recipe.steps if step.operation == "side bevel")
    assert bevel.targets["thickness"].nominal == pytest.approx(5.1)
    assert recipe.drawing["billet"].limits["thickness"].nominal == pytest.approx(5.1)
