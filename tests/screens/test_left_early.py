"""A screen that is left before all of it is shown, and one that is typed into as soon as it is asked for."""

from __future__ import annotations

from pathlib import Path

import pytest
from textual.geometry import Size
from textual.widgets import Input

from coach.bench.session import Session
from coach.bench.shop import Shop
from coach.places import bundled_recipes
from coach.screens.app import CoachApp
from coach.screens.new import NewScreen
from coach.screens.screen import CoachScreen
from coach.screens.shop import ShopScreen
from tests.screens.stage import on_stage, settled, showing, words_on
from tests.screens.walked import places

#: What each is made of, where that is no job.
_OF_NO_JOB = {
    "shop": ("",),
    "faults": ("peg", ()),
    "help": ("", "", ()),
    "new": (),
    "rack": (),
    "own_figures": (),
}


@pytest.mark.parametrize("place", [one for one in places() if one != "palette"])
async def test_a_screen_that_is_left_before_it_is_filled_leaves_in_peace(
    shop: Shop, job: Session, tmp_path: Path, place: str
) -> None:
    async with on_stage(shop, folders=(tmp_path / "own", bundled_recipes())) as (app, pilot):
        await settled(app, pilot)
        app.go(place, *_OF_NO_JOB.get(place, (job,)))
        await pilot.pause()
        left = app.screen
        assert isinstance(left, CoachScreen)
        if place == "history":
            await pilot.press("tab")
        await pilot.resize_terminal(100, 30)  # all is to be filled anew
        if hasattr(left, "fill"):
            left.fill()
        app.go("bench", job)
        for _ in range(5):
            await pilot.pause()
        assert app.fault is None
        assert app.screen is not left
        assert app.screen.size == Size(100, 30)


async def test_the_sheet_of_a_finished_job_is_left_by_the_same_key_at_once(shop: Shop, job: Session) -> None:
    for _ in range(3):
        job.done()
    async with on_stage(shop) as (app, pilot):
        await settled(app, pilot)
        for _ in range(3):
            await pilot.press("enter", "enter", "tab", "escape", "escape")
            await settled(app, pilot)
        assert app.fault is None
        assert showing(app) is ShopScreen


@pytest.mark.parametrize("size", [(80, 24), (40, 12)])
async def test_a_new_recipe_takes_what_is_typed_right_behind_its_key(
    shop: Shop, tmp_path: Path, size: tuple[int, int]
) -> None:
    async with on_stage(shop, folders=(tmp_path / "own", bundled_recipes()), size=size) as (app, pilot):
        await settled(app, pilot)
        await pilot.press("ctrl+n", *"Gate hook")
        assert showing(app) is NewScreen
        assert _typed(app) == "Gate hook"
        await pilot.press("enter", *"m")
        assert _typed(app) == "m"


async def test_a_new_recipe_found_by_its_name_takes_what_is_typed(shop: Shop, tmp_path: Path) -> None:
    async with on_stage(shop, folders=(tmp_path / "own", bundled_recipes())) as (app, pilot):
        await settled(app, pilot)
        await pilot.press("ctrl+p", *"new rec", "enter")
        await pilot.pause()
        await pilot.press(*"Gate hook")
        assert showing(app) is NewScreen
        assert _typed(app) == "Gate hook"


@pytest.mark.parametrize("place", ["amend", "change", "happened", "haft"])
async def test_a_screen_with_a_box_takes_what_is_typed_at_first(shop: Shop, job: Session, place: str) -> None:
    async with on_stage(shop, job) as (app, pilot):
        app.lay_over(place, job)
        await pilot.pause()
        await pilot.press(*"abc")
        assert _typed(app).endswith("abc")


def _typed(app: CoachApp) -> str:
    return app.screen.query_one(Input).value


async def test_the_plan_of_a_job_under_way_tells_how_the_job_itself_stands(shop: Shop, job: Session) -> None:
    job.heat()
    async with on_stage(shop, job) as (app, pilot):
        app.lay_over("plan", job)
        await pilot.pause()
        assert "Plan: Tent peg, as it began; now on plan" in words_on(app)


async def test_the_plan_of_a_job_that_was_changed_does_not_say_that_it_began_so(
    shop: Shop, job: Session
) -> None:
    job.change("again 1")
    async with on_stage(shop, job) as (app, pilot):
        app.lay_over("plan", job)
        await pilot.pause()
        assert "Plan: Tent peg, as changed since; now " in words_on(app)


async def test_the_choice_of_a_rest_has_the_sign_of_every_list(shop: Shop, job: Session) -> None:
    async with on_stage(shop, job) as (app, pilot):
        app.lay_over("rest", job)
        await pilot.pause()
        assert "▸ Rest, and close the coach" in words_on(app)
        await pilot.press("down")
        assert "▸ Stay at the bench" in words_on(app)
