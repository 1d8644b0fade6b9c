"""A new recipe from the shop: a question at a time, gone back on at will, written into the recipes folder."""

from __future__ import annotations

from pathlib import Path

import pytest
from textual.pilot import Pilot
from textual.widgets import Input

from coach.bench.shop import Shop
from coach.places import bundled_recipes
from coach.recipe.reader import read_recipe_file
from coach.screens.new import NewScreen
from coach.screens.shop import ShopScreen
from coach.screens.widgets.pick_list import PickList
from tests.screens.stage import answer_on, on_stage, settled, showing, words_on


async def _type(pilot: Pilot[None], text: str) -> None:
    pilot.app.screen.query_one(Input).value = text
    await pilot.press("enter")
    await pilot.pause()


@pytest.mark.parametrize("size", [(80, 24), (40, 12), (160, 48)])
async def test_answers_become_a_recipe_in_the_own_folder(
    shop: Shop, tmp_path: Path, size: tuple[int, int]
) -> None:
    folders = (tmp_path / "own", bundled_recipes())
    async with on_stage(shop, folders=folders, size=size) as (app, pilot):
        await settled(app, pilot)
        await pilot.press("ctrl+n")
        await pilot.pause()
        assert showing(app) is NewScreen
        for text in ("Wall hook", "", "", "square 10", "tip: square 8 to 3, long 90"):
            await _type(pilot, text)
        for text in ("shank: square 8, long 110", "", "", "", "no"):
            await _type(pilot, text)
        assert "On plan" in words_on(app)
        assert not (tmp_path / "own").exists()
        await pilot.press("enter")
        await settled(app, pilot)
        assert showing(app) is ShopScreen
        assert "Wall hook is proposed in" in answer_on(app)
        assert "Wall hook" in words_on(app)
        chosen = app.screen.query_one("#recipes", PickList).chosen
        assert chosen is not None
        assert chosen.title == "Wall hook"
        assert app.screen.query_one("#recipes").has_focus
    recipe = read_recipe_file(tmp_path / "own" / "wall-hook.yaml")
    assert recipe.drawing["tip"].limits["length"].nominal == 90.0


async def test_a_wrong_answer_is_said_and_asked_again_and_escape_goes_back(
    shop: Shop, tmp_path: Path
) -> None:
    async with on_stage(shop, folders=(tmp_path / "own", bundled_recipes())) as (app, pilot):
        await settled(app, pilot)
        await pilot.press("ctrl+n")
        await pilot.pause()
        await _type(pilot, "")
        assert "That must be told" in answer_on(app)
        await _type(pilot, "Wall hook")
        await _type(pilot, "")
        await _type(pilot, "milds steel")
        assert "the nearest is mild steel" in answer_on(app)
        await pilot.press("escape")
        await pilot.pause()
        assert app.screen.query_one(Input).value == "mm"
        await pilot.press("escape", "escape")
        await pilot.pause()
        assert showing(app) is ShopScreen


async def test_what_is_there_already_is_not_written_over(shop: Shop, tmp_path: Path) -> None:
    own = tmp_path / "own"
    own.mkdir()
    (own / "drift.yaml").write_text("mine", encoding="utf-8")
    async with on_stage(shop, folders=(own, bundled_recipes())) as (app, pilot):
        await settled(app, pilot)
        await pilot.press("ctrl+n")
        await pilot.pause()
        for text in ("Drift", "", "", "round 12", "pin: round 12 to 6, long 100", "", "", "", "no", ""):
            await _type(pilot, text)
        await settled(app, pilot)
    assert (own / "drift.yaml").read_text(encoding="utf-8") == "mine"
    assert (own / "drift-2.yaml").exists()
