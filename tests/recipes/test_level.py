"""Who a recipe is for, told by the work that is in it."""

from __future__ import annotations

from coach.bench.heats_planned import heats_planned
from coach.places import bundled_recipes
from coach.recipe.level import Level, level_of
from coach.recipe.library import recipes_in
from coach.recipe.reader import read_recipe

HARDENED = """\
recipe: Small chisel
pieces:
  chisel:
    metal: 1084
    bar: square 12
    zones:
      blade: square 10 ±1, long 100 ±9
steps:
  - draw: blade, square 10 ±1, 1 heat
  - harden: blade, quench oil
  - temper: blade
"""


def test_a_recipe_that_welds_asks_for_long_practice_and_a_hook_for_none() -> None:
    levels = {entry.name: entry.level for entry in recipes_in([bundled_recipes()], heats_planned)}
    expected = {
        "first-hook": "first work",
        "twisted-poker": "first work",
        "cold-chisel": "some practice",
        "carpenters-adze": "long practice",
        "cross-peen-hammer": "long practice",
        "folded-froe": "long practice",
        "hedging-hatchet": "long practice",
        "ring-and-chain": "long practice",
    }
    assert {name: levels[name] for name in expected} == expected


def test_a_recipe_that_only_hardens_asks_for_some_practice() -> None:
    assert level_of(read_recipe(HARDENED, "chisel.yaml").steps) is Level.PRACTISED


def test_what_a_recipe_takes_is_counted_over_its_steps() -> None:
    hook = next(
        entry for entry in recipes_in([bundled_recipes()], heats_planned) if entry.name == "first-hook"
    )
    assert (hook.steps, hook.heats) == (9, 11)
