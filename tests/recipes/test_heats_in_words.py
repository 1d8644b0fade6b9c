"""The heats and colours in a recipe's sentences are those of its figures and of what is published."""

from __future__ import annotations

from pathlib import Path

import pytest

from coach.fire.colours import HEAT_COLOURS
from coach.fire.temper_colours import TEMPER_COLOURS
from coach.metals.grade import grade
from coach.metals.tempering import RUN_HOURS, tempered_hrc
from coach.metals.tempering_table import tempering_row
from coach.operations import Does
from coach.recipe.model import Recipe, Step
from coach.recipe.reader import read_recipe_file

RECIPES = {path.stem: path for path in sorted(Path(__file__).parents[2].glob("recipes/*.yaml"))}


def steps(name: str) -> tuple[Recipe, tuple[Step, ...]]:
    recipe = read_recipe_file(RECIPES[name])
    return recipe, recipe.steps


@pytest.mark.parametrize("name", RECIPES)
def test_a_shade_past_the_magnet_is_asked_only_of_steel_that_hardens_there(name: str) -> None:
    # One shade of White and Taylor's table is 40 to 100 °C; the magnet lets go of steel of 0.77 % carbon
    # or more from 727 °C (iron-carbon diagram, confirmed) and of all others at 770 °C, the Curie
    # point (from memory).
    for step in steps(name)[1]:
        if step.does(Does.QUENCHES) and step.temperature_c is not None and step.temperature_c >= 830:
            words = f"{step.how} {step.watch}".casefold()
            assert "shade" not in words
            assert "light cherry" in words
            assert abs(HEAT_COLOURS.temperature_c("light cherry") - step.temperature_c) < 40
            assert "later" not in step.watch


def test_the_colour_that_stands_for_the_oven_leaves_the_hardness_that_the_oven_leaves() -> None:
    # A colour runs for some three minutes (judgement); 1084 is a thin edge hardened right through. The
    # hatchet's edge is wanted at 53 to 57 HRC, DIN 7287 having 51 to 56 (confirmed second-hand).
    row = tempering_row("1084")
    assert row is not None
    (hatchet,) = (step for step in steps("hedging-hatchet")[1] if step.does(Does.TEMPERS))
    assert "greenish blue" in hatchet.how
    run = tempered_hrc(row, TEMPER_COLOURS.temperature_c("greenish blue"), RUN_HOURS)
    assert 53 <= run.hrc <= 57
    assert tempered_hrc(row, TEMPER_COLOURS.temperature_c("blue"), RUN_HOURS).hrc > 57
    *_, adze = (step for step in steps("carpenters-adze")[1] if step.does(Does.TEMPERS))
    assert "bluish purple" in adze.how
    oven = tempered_hrc(row, 240, 2.0)
    run = tempered_hrc(row, TEMPER_COLOURS.temperature_c("bluish purple"), RUN_HOURS)
    assert run.hrc == pytest.approx(oven.hrc, abs=1)


def test_the_heat_to_stop_at_is_the_one_that_its_metal_stops_at() -> None:
    # Low-carbon steel is finished at 800 to 840 °C (from memory); White and Taylor's light cherry is 843 °C
    # and Howe's dull red 550 to 625 °C (from memory).
    taper = steps("first-hook")[1][1]
    low_c = grade("mild steel").forging_low_c
    assert low_c is not None
    assert "dull" not in taper.watch
    assert "light cherry" in taper.watch
    assert HEAT_COLOURS.temperature_c("light cherry") >= low_c
