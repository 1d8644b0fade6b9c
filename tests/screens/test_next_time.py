"""At a job's end: what cost most stands on the sheet, and a key shows and makes the edits of the recipe."""

from __future__ import annotations

from pathlib import Path

import pytest
from textual.widgets import Input

from coach.bench.session import Session
from coach.bench.shop import Shop
from coach.recipe.reader import read_recipe
from coach.screens.next_time import NextTimeScreen
from coach.screens.sheet import SheetScreen
from coach.screens.widgets.panel import Lines
from tests.bench.jobs import at_step_of
from tests.screens.stage import COMMON, SMALL, at_the_bench, on_stage, screen_text, settled


def finish(job: Session) -> None:
    """Invented work on the peg: its point took three heats where two were planned, one came too thick."""
    for _ in range(3):
        job.heat()
    job.read("point.side", "8", insist=True)
    job.done()
    job.read("shank.side", "11.9", insist=True)
    while job.standing().step is not None:
        job.done()


@pytest.mark.parametrize("size", [SMALL, COMMON])
async def test_the_three_sentences_stand_on_the_sheet_of_a_finished_job(
    shop: Shop, job: Session, size: tuple[int, int]
) -> None:
    finish(job)
    async with at_the_bench(shop, job, size=size) as (bench, pilot):
        await pilot.press("ctrl+e")
        await settled(bench.coach, pilot)
        sheet = bench.coach.screen
        assert isinstance(sheet, SheetScreen)
        words = str(sheet.query_one("#lines", Lines).query_one("#words").render())
        assert "What to do better next time" in " ".join(words.split())


async def test_an_edit_is_shown_and_made_into_a_new_recipe(shop: Shop, job: Session, tmp_path: Path) -> None:
    finish(job)
    own = tmp_path / "own"
    async with on_stage(shop, job, size=(120, 40), folders=(own,)) as (app, pilot):
        await pilot.press("enter", "ctrl+e", "n")
        await settled(app, pilot)
        screen = app.screen
        assert isinstance(screen, NextTimeScreen)
        told = screen_text(app)
        assert "+" in told
        assert "Type " in told
        screen.query_one(Input).value = "wrong"
        await pilot.press("enter")
        await settled(app, pilot)
        assert "is no change that is offered" in " ".join(screen_text(app).split())
        screen.query_one(Input).value = "all"
        await pilot.press("enter")
        await settled(app, pilot)
        (made,) = own.glob("*.yaml")
        assert made.stem.endswith("-next")
        changed = read_recipe(made.read_text(encoding="utf-8"), made.name)
        assert changed.drawing != job.recipe.drawing or changed.steps != job.recipe.steps


async def test_where_nothing_is_to_be_changed_nothing_is_asked(shop: Shop) -> None:
    async with on_stage(shop, at_step_of("cold-chisel", 99)) as (app, pilot):
        app.lay_over("next_time", app.in_hand)
        await settled(app, pilot)
        told = screen_text(app)
        assert "there is nothing to change." in told
        assert "Which of them?" not in told
        assert "write" not in told.splitlines()[-1]
