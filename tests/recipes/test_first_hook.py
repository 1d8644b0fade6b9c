"""The hook of a first day: a sound recipe in itself."""

from __future__ import annotations

from pathlib import Path

import pytest

from coach.recipe.model import Recipe
from coach.recipe.reader import read_recipe_file

FILE = Path(__file__).parents[2] / "recipes" / "first-hook.yaml"


@pytest.fixture(scope="module")
def hook() -> Recipe:
    return read_recipe_file(FILE)


def test_it_is_done_in_about_eight_steps_and_a_dozen_heats(hook: Recipe) -> None:
    assert 7 <= len(hook.steps) <= 10
    # At four minutes a heat that is under an hour at the fire (common practice, no source).
    assert sum(step.heats for step in hook.steps) * 4 < 60


def test_every_step_says_how_it_is_done(hook: Recipe) -> None:
    assert all(step.how for step in hook.steps)


def test_a_caution_stands_where_the_danger_is_and_only_once_in_a_step(hook: Recipe) -> None:
    for step in hook.steps:
        assert len(step.cautions) == len(set(step.cautions))
    assert {"draw", "cut", "punch"} <= {step.operation for step in hook.steps if step.cautions}


def test_the_plate_spreads_from_the_bar_that_is_cut_for_it(hook: Recipe) -> None:
    plate = hook.drawing["plate"].limits
    width, thickness, length = (plate[name].nominal for name in ("width", "thickness", "length"))
    # The plate before its hole, over the section of 10 mm square bar: 16·5·44 / 100, about 35 mm of bar.
    assert width * thickness * length / 100 == pytest.approx(35.2)
    assert plate["hole_width"].high < plate["width"].low / 2  # more metal beside the nail than the nail takes


def test_the_tip_and_shank_draw_out_of_the_bar_and_need_no_upsetting(hook: Recipe) -> None:
    side = hook.pieces["hook"].stock.sizes_mm["side"]
    assert hook.drawing["tip"].limits["width"].high < side
    assert hook.drawing["shank"].limits["side"].high < side
