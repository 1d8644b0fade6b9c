"""The plan as it is looked at: nothing of it is cut off, every figure stands at its mark, each step opens."""

from __future__ import annotations

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from pathlib import Path

import pytest
from textual import events
from textual.pilot import Pilot
from textual.widgets import OptionList

from coach.bench.planned import planned_tool
from coach.bench.shop import Shop
from coach.ledger.looking_back import look_back
from coach.ledger.plan import Plan
from coach.quantities.units import System
from coach.recipe.reader import read_recipe, read_recipe_file
from coach.screens.app import CoachApp
from coach.screens.page_content import page_content
from coach.screens.plan import PlanScreen
from coach.screens.widgets.panel import Lines
from coach.telling.page import page
from coach.telling.plan import step_section
from coach.telling.writing import Shown, write_length
from tests.screens.stage import (
    COMMON,
    PEG,
    ROOMY,
    SMALL,
    answer_on,
    on_stage,
    resized,
    screen_text,
    words_on,
)

SHELF = sorted((Path(__file__).parents[2] / "recipes").glob("*.yaml"))
PEG_PLAN = look_back(read_recipe(PEG, "peg.yaml"))


@asynccontextmanager
async def looked_at(
    shop: Shop, plan: Plan = PEG_PLAN, *, size: tuple[int, int] = COMMON, path: Path | None = None
) -> AsyncIterator[tuple[CoachApp, Pilot[None]]]:
    """A plan over the shop."""
    async with on_stage(shop, size=size) as (app, pilot):
        app.lay_over("plan", plan, path)
        await pilot.pause()
        await pilot.pause()
        yield app, pilot


async def whole_page(app: CoachApp, pilot: Pilot[None]) -> str:
    """Everything on the page that is turned to, as far down as it goes."""
    seen = [screen_text(app)]
    for _ in range(60):
        side, lines = app.screen.query_one("#page-side"), app.screen.query_one(Lines)
        steps = app.screen.query_one("#steps", OptionList)
        if side.display and lines.scroll_offset.y >= lines.max_scroll_y:
            break
        if not side.display and steps.highlighted == steps.option_count - 1:
            break
        await pilot.press("pagedown")
        await pilot.pause()
        seen.append(screen_text(app))
    return "\n".join(seen)


@pytest.mark.parametrize("size", [SMALL, COMMON], ids=lambda size: f"{size[0]}x{size[1]}")
@pytest.mark.parametrize("path", SHELF, ids=lambda path: path.stem)
async def test_nothing_of_a_bundled_plan_is_cut_off(shop: Shop, path: Path, size: tuple[int, int]) -> None:
    plan = look_back(read_recipe_file(path))
    async with looked_at(shop, plan, size=size) as (app, pilot):
        for _ in range(3):
            assert "…" not in await whole_page(app, pilot)
            await pilot.press("tab")
            await pilot.pause()


@pytest.mark.parametrize("path", SHELF, ids=lambda path: path.stem)
def test_no_step_in_full_is_cut_off(path: Path) -> None:
    for step in planned_tool(look_back(read_recipe_file(path))).steps:
        part = page(step_section(step, Shown()))
        for width in (57, 77):  # the room at 60 and at 80 columns
            assert "…" not in page_content(part, width).plain
        assert max(line.cell_length for line in page_content(part, 77).split("\n")) <= 77


@pytest.mark.parametrize("path", SHELF, ids=lambda path: path.stem)
async def test_every_step_has_its_row_with_its_heats(shop: Shop, path: Path) -> None:
    plan = look_back(read_recipe_file(path))
    async with looked_at(shop, plan) as (app, pilot):
        await pilot.press("tab")
        await pilot.pause()
        steps = app.screen.query_one("#steps", OptionList)
        assert steps.option_count == len(plan.recipe.steps)
        for at, step in enumerate(plan.recipe.steps):
            row = str(steps.get_option_at_index(at).prompt).removeprefix("▸").split()
            assert row[0] == str(step.number)
            assert set(step.title.split()) <= set(row)
            assert str(step.heats or "-") in row


@pytest.mark.parametrize("system", ["mm", "in"])
async def test_the_figures_over_the_bar_are_the_marks_of_the_plan(shop: Shop, system: System) -> None:
    plan = look_back(read_recipe_file(SHELF[0])._replace(system=system))
    async with looked_at(shop, plan, size=ROOMY) as (app, pilot):
        told = await whole_page(app, pilot)
        for piece in planned_tool(plan).pieces:
            for at in (*(one.at for one in piece.marks), *(one.at for one in piece.centres)):
                assert write_length(at.value, Shown(system), unit=False) in told


async def test_the_face_has_the_bar_the_heats_the_hours_and_the_verdict(shop: Shop) -> None:
    async with looked_at(shop) as (app, _):
        head = "\n".join(screen_text(app).splitlines()[1:8])
        # 125 mm of bar, three heats and half an hour, as `coach plan` tells them.
        for word in ("square 12 mm", "heats", "minutes at most", "at the fire", "ON PLAN", ">99 %"):
            assert word in head
        assert "█████ █████" in head


async def test_a_step_opens_over_its_list_and_closes_again(shop: Shop) -> None:
    async with looked_at(shop) as (app, pilot):
        await pilot.press("tab", "down", "enter")
        await pilot.pause()
        assert "2. Draw the shank" in words_on(app)
        assert answer_on(app).startswith("Step 2 of 3: 1 heat, 5 to 10 min.")
        await pilot.press("left")
        await pilot.pause()
        assert "1. Draw the point" in words_on(app)
        assert "Keep it square, and turn it after every blow." in words_on(app)
        await pilot.press("left")  # there is none before it
        await pilot.pause()
        assert "1. Draw the point" in words_on(app)
        await pilot.press("escape")
        await pilot.pause()
        assert "▸ 1 Draw the point" in words_on(app)
        assert isinstance(app.screen, PlanScreen)
        await pilot.press("escape")
        await pilot.pause()
        assert not isinstance(app.screen, PlanScreen)


async def test_arrows_pressed_just_before_enter_choose_the_step_that_it_opens(shop: Shop) -> None:
    async with looked_at(shop) as (app, pilot):
        await pilot.press("tab")
        await pilot.pause()
        for one in ("down", "down", "enter"):  # all at once, before any of them is looked at
            app.post_message(events.Key(one, None))
        for _ in range(4):
            await pilot.pause()
        assert "3. Look it over" in words_on(app)


async def test_in_a_wide_window_the_step_beside_follows_the_list(shop: Shop) -> None:
    async with looked_at(shop, size=ROOMY) as (app, pilot):
        assert "The finished peg" in words_on(app)
        assert "▸ 1 Draw the point" in words_on(app)
        await pilot.press("enter", "down")
        await pilot.pause()
        assert "▸ 2 Draw the shank" in words_on(app)
        assert "2. Draw the shank" in words_on(app)
        await pilot.press("escape", "tab")
        await pilot.pause()
        assert "point length" in words_on(app)


async def test_a_plan_that_was_made_small_and_large_again_is_where_it_was(shop: Shop) -> None:
    async with looked_at(shop) as (app, pilot):
        await pilot.press("tab", "down")
        await pilot.pause()
        before = screen_text(app)
        for size in ((20, 6), ROOMY, SMALL, COMMON):
            await resized(app, pilot, *size)
            await pilot.pause()
        assert screen_text(app) == before


async def test_only_a_plan_that_is_not_begun_has_a_key_to_begin_it(shop: Shop, tmp_path: Path) -> None:
    (tmp_path / "peg.yaml").write_text(PEG, encoding="utf-8")
    async with looked_at(shop) as (app, _):
        assert "b begin" not in words_on(app)
    async with looked_at(shop, path=tmp_path / "peg.yaml") as (app, pilot):
        assert "b begin" in words_on(app)
        await pilot.press("b")
        await pilot.pause()
    assert len(shop.jobs()) == 1


async def test_what_is_to_be_put_right_first_stands_first(shop: Shop) -> None:
    short = PEG.replace("bar: square 12", "bar: square 12, long 100")
    async with looked_at(shop, look_back(read_recipe(short, "peg.yaml"))) as (app, _):
        told = words_on(app)
        assert told.index("To put right first") < told.index("Mild steel, square 12 mm")
        assert answer_on(app) == "! 2 to put right first, on the page of the bar."
