"""The screen of what jobs have taught: each figure with its jobs, one left out by a key and counted again."""

from __future__ import annotations

from pathlib import Path

import pytest

from coach.bench.own_figures import own_figures
from coach.bench.shop import Shop
from coach.screens.own_figures import OwnFiguresScreen
from coach.screens.shop import ShopScreen
from tests.bench.test_known_shop import HUNGRY
from tests.screens.stage import COMMON, SMALL, answer_on, on_stage, settled, showing, words_on
from tests.worlds.study import forged
from tests.worlds.tools import TOOLS


def left_out(shop: Shop) -> list[str]:
    return [one.job for own in own_figures(shop).figures for one in own.jobs if one.left_out]


@pytest.mark.parametrize("size", [SMALL, COMMON])
async def test_what_a_job_taught_is_left_out_and_counted_again_by_enter(
    shop: Shop, size: tuple[int, int]
) -> None:
    for number in range(2):
        forged(TOOLS[2], number, HUNGRY, 5, shop)
    async with on_stage(shop, folders=(), size=size) as (app, pilot):
        await settled(app, pilot)
        await pilot.press("shift+f9")
        await settled(app, pilot)
        assert showing(app) is OwnFiguresScreen
        assert "scale (× reckoned)" in words_on(app)
        await pilot.press(
            "down", "down", "down", "down", "enter"
        )  # the hand, and what a job told of it, first
        await settled(app, pilot)
        (job,) = left_out(shop)
        assert f"What {job} told of the scale is left out" in answer_on(app)
        await pilot.press("enter")  # the same one, though jobs stand as they were touched last
        await settled(app, pilot)
        assert left_out(shop) == []
        await pilot.press("home", "down", "down", "enter")
        await settled(app, pilot)
        assert sorted(left_out(shop)) == ["stake", "stake-2"]
        await pilot.press("enter", "escape")
        await settled(app, pilot)
        assert left_out(shop) == []
        assert showing(app) is ShopScreen


async def test_a_shop_that_has_taught_nothing_says_so(shop: Shop, tmp_path: Path) -> None:
    async with on_stage(shop, folders=(tmp_path,), size=SMALL) as (app, pilot):
        await settled(app, pilot)
        await pilot.press("shift+f9")
        await settled(app, pilot)
        assert "No job has taught anything of this shop yet" in words_on(app)
        await pilot.press("enter")
        assert "Nothing is taught yet" in answer_on(app)
