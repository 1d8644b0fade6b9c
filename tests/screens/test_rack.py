"""The rack on the screen: bars laid and taken off by keys, and a job begun from the chosen one."""

from __future__ import annotations

from pathlib import Path

from textual.pilot import Pilot
from textual.widgets import Input

from coach.bench.session import Session
from coach.bench.shop import Shop
from coach.screens.rack import RackScreen
from coach.screens.resume import ResumeScreen
from tests.screens.stage import SMALL, answer_on, on_stage, recipes, settled, showing, words_on

OF_PEG = "square 12, long 400, mild steel"


async def typed(pilot: Pilot[None], text: str) -> None:
    pilot.app.screen.query_one(Input).value = text
    await pilot.press("enter")
    await pilot.pause()


async def test_a_bar_is_laid_corrected_and_taken_off_by_keys(
    shop: Shop, job: Session, tmp_path: Path
) -> None:
    async with on_stage(shop, folders=recipes(tmp_path)) as (app, pilot):
        await settled(app, pilot)
        await pilot.press("ctrl+u")
        await pilot.pause()
        assert showing(app) is RackScreen
        assert "Enter lay it" in words_on(app)  # nothing is begun here
        await typed(pilot, f"Long One: {OF_PEG}")
        assert "On the rack: long-one, mild steel square 12 mm, 400 mm long." in answer_on(app)
        await typed(pilot, "long-one: square 12, long 350")
        assert "350 mm" in words_on(app)
        await pilot.press("f8")
        assert shop.rack.now().bars[0].length.value == 400.0
        await typed(pilot, "long-one: gone")
        assert shop.rack.now().bars == ()
        await pilot.press("f8")
        assert [bar.name for bar in shop.rack.now().bars] == ["long-one"]
        await typed(pilot, "square 12")
        assert job.job in {one.job for one in shop.jobs()}
        assert "long 500, C80" in answer_on(app)
        assert pilot.app.screen.query_one(Input).value == "square 12"  # nothing typed is lost


async def test_enter_on_a_recipe_asks_which_bar_where_some_of_its_grade_lie_there(
    shop: Shop, tmp_path: Path
) -> None:
    for name, bar in (
        ("other", "square 12, long 400, C45"),
        ("peg", OF_PEG),
        ("odd", "square 12, 250 g, mild steel"),
    ):
        shop.rack.lay(name, bar, "mm")
    async with on_stage(shop, folders=recipes(tmp_path), size=SMALL) as (app, pilot):
        await settled(app, pilot)
        await pilot.press("enter")
        await pilot.pause()
        assert showing(app) is RackScreen
        assert "Which bar for tent-peg?" in words_on(app)
        assert "✗ other, peg: it is C45, and mild steel is wanted" in words_on(app)
        assert "▸ odd square 12 mm, about" in words_on(app)
        await pilot.press("down")
        assert "▸ peg square 12 mm, 400 mm peg: takes" in words_on(app)
        await pilot.press("up")
        left = [bar.length.value for bar in shop.rack.now().bars]
        await pilot.press("enter")  # the one that leaves least over: the offcut of 221 mm
        await pilot.pause()
        assert showing(app) is ResumeScreen
        now = [bar.length.value for bar in shop.rack.now().bars]
        assert now[:2] == left[:2]
        assert now[2] < left[2]
        assert shop.jobs()[0].job == "tent-peg"


async def test_the_recipes_own_bar_is_there_to_choose_and_another_can_be_typed(
    shop: Shop, tmp_path: Path
) -> None:
    shop.rack.lay("peg", OF_PEG, "mm")
    shelf = recipes(tmp_path)
    async with on_stage(shop, folders=shelf) as (app, pilot):
        await settled(app, pilot)
        await pilot.press("ctrl+u")
        await pilot.pause()
        await typed(pilot, "square 12, long 90")
        assert showing(app) is RackScreen
        assert "too short" in answer_on(app)
        assert "Enter again begins it all the same" in answer_on(app)
        await typed(pilot, "")  # something else: that was no second Enter
        assert showing(app) is ResumeScreen
        assert shop.rack.now().bars[0].length.value < 400.0
        await pilot.press("escape")
    async with on_stage(shop, folders=shelf) as (app, pilot):
        await settled(app, pilot)
        await pilot.press("tab", "ctrl+u")
        await pilot.pause()
        left = shop.rack.now().bars[0].length.value
        await pilot.press("down", "enter")
        await pilot.pause()
        assert len(shop.jobs()) == 2
        assert shop.rack.now().bars[0].length.value == left


async def test_several_are_begun_from_one_bar(shop: Shop, tmp_path: Path) -> None:
    shop.rack.lay("peg", "square 12, long 600, mild steel", "mm")
    async with on_stage(shop, folders=recipes(tmp_path)) as (app, pilot):
        await settled(app, pilot)
        await pilot.press("enter")
        await pilot.pause()
        await typed(pilot, "make two")
        assert "is not how many are made" in answer_on(app)
        await typed(pilot, "make 2")
        assert "2 are made, all from one bar" in answer_on(app)
        await pilot.press("enter")
        await pilot.pause()
        assert list(shop.open("tent-peg").recipe.pieces) == ["peg 1", "peg 2"]
