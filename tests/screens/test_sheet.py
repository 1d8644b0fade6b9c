"""The sheet of a job on the screen: the drawing against the tool, at every size of window."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from textual.widgets import Input

from coach.bench.session import Session
from coach.bench.shop import Shop
from coach.screens.bench import BenchScreen
from coach.screens.sheet import SheetScreen
from coach.screens.widgets.face import Face
from coach.screens.widgets.panel import Lines
from coach.telling.sheet import others_text
from tests.bench.jobs import at_step_of
from tests.screens.stage import (
    COMMON,
    ROOMY,
    SMALL,
    at_the_bench,
    on_stage,
    recipes,
    screen_text,
    settled,
    words_on,
)


def finish(job: Session) -> None:
    """Invented work on the peg: one size let go, one not measured."""
    job.heat()
    job.read("point.side", "6.6")
    job.take("accept-point-side")
    job.done()
    job.read("shank.side", "10.1")
    job.done(1)
    job.done()


@pytest.mark.parametrize("size", [(40, 12), SMALL, COMMON, (120, 40), ROOMY])
async def test_every_size_stands_on_it_with_its_sign_at_any_window(
    shop: Shop, job: Session, size: tuple[int, int]
) -> None:
    finish(job)
    async with at_the_bench(shop, job, size=size) as (bench, pilot):
        await pilot.press("ctrl+e")
        await pilot.pause()
        assert isinstance(bench.coach.screen, SheetScreen)
        words = str(bench.coach.screen.query_one("#lines", Lines).query_one("#words").render())
        for told in ("○ point side", "✓ shank side", "· shank length"):
            assert told in " ".join(words.split())


async def test_what_steps_ask_for_besides_is_counted_apart_and_no_name_of_it_is_cut(shop: Shop) -> None:
    chisel = at_step_of("cold-chisel", 99)  # 10 sizes drawn; a heat and a soak twice, and an angle
    async with at_the_bench(shop, chisel, size=(80, 40)) as (bench, pilot):
        await pilot.press("ctrl+e")
        await settled(bench.coach, pilot)
        words = words_on(bench.coach)
        assert "10 sizes not measured since last worked" in words
        assert "Asked for by the steps" in words
        assert "edge temperature, step 10" in words
        assert "…" not in words


async def test_what_is_to_be_put_right_is_listed_from_the_sheet_by_the_same_key(
    shop: Shop, job: Session
) -> None:
    job.to_right("point: dress the lap")
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("ctrl+e")
        await pilot.pause()
        await pilot.press("plus")
        await settled(bench.coach, pilot)
        assert "Point: dress the lap" in words_on(bench.coach) or "point: dress the lap" in words_on(
            bench.coach
        )
        await pilot.press("enter", "escape")
        await settled(bench.coach, pilot)
        assert isinstance(bench.coach.screen, SheetScreen)
        assert "fix 1" not in words_on(bench.coach)


@pytest.mark.parametrize("size", [COMMON, (120, 40), ROOMY])
async def test_its_face_tells_sizes_heats_and_the_verdict(
    shop: Shop, job: Session, size: tuple[int, int]
) -> None:
    finish(job)
    async with at_the_bench(shop, job, size=size) as (bench, pilot):
        await pilot.press("ctrl+e")
        await pilot.pause()
        drawn = screen_text(bench.coach)
        assert "sizes as drawn" in drawn
        assert "planned 3" in drawn
        assert "██" in drawn


async def test_the_bench_of_a_finished_job_counts_the_sizes_as_its_sheet_does(
    shop: Shop, job: Session
) -> None:
    finish(job)
    sheet = job.sheet()
    async with at_the_bench(shop, job) as (bench, pilot):
        blocks = bench.query_one(Face)._blocks
        assert blocks[0].figure == f"{sheet.as_drawn}/{sheet.asked}"
        assert blocks[0].caption == others_text(sheet)
        await pilot.press("ctrl+e", "enter")
        await pilot.pause()
        assert isinstance(bench.coach.screen, BenchScreen), "Enter goes to the bench below it"


async def test_what_is_to_come_is_not_told_as_if_it_were_wrong(shop: Shop, job: Session) -> None:
    job.done()
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("ctrl+e")
        await pilot.pause()
        assert "not as drawn" not in screen_text(bench.coach)
        assert "2 not measured" in screen_text(bench.coach)


async def test_a_large_window_shows_the_tool_beside_its_sizes(shop: Shop, job: Session) -> None:
    finish(job)
    async with at_the_bench(shop, job, size=ROOMY) as (bench, pilot):
        await pilot.press("ctrl+e")
        await pilot.pause()
        await pilot.pause(0.1)
        drawn = screen_text(bench.coach)
        assert "The peg as it came" in drawn
        assert "What it took" in drawn


async def test_tab_turns_to_the_picture_and_esc_back_again(shop: Shop, job: Session) -> None:
    finish(job)
    async with at_the_bench(shop, job, size=COMMON) as (bench, pilot):
        await pilot.press("ctrl+e", "tab")
        await pilot.pause(0.1)
        assert "The peg as it came" in screen_text(bench.coach)
        await pilot.press("escape")
        await pilot.pause()
        assert "The peg as it came" not in screen_text(bench.coach)
        await pilot.press("escape")
        await pilot.pause()
        assert isinstance(bench.coach.screen, BenchScreen)


async def test_the_arrows_bring_what_is_below_into_the_window(shop: Shop, job: Session) -> None:
    finish(job)
    async with at_the_bench(shop, job, size=COMMON) as (bench, pilot):
        await pilot.press("ctrl+e")
        await pilot.pause()
        assert "Draw the shank" not in screen_text(bench.coach)
        await pilot.press("end")
        await pilot.pause()
        assert "Draw the shank" in screen_text(bench.coach)


async def test_a_note_for_next_time_is_entered_and_shown(shop: Shop, job: Session) -> None:
    finish(job)
    async with at_the_bench(shop, job, size=ROOMY) as (bench, pilot):
        await pilot.press("ctrl+e", "f6", *"turn it sooner", "enter")
        await pilot.pause()
        assert [note.text for note in job.standing().notes] == ["turn it sooner"]
        assert "At the end: turn it sooner" in screen_text(bench.coach)
        assert not bench.coach.screen.query_one(Input).display


async def test_an_empty_note_is_refused_in_one_sentence(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job, size=COMMON) as (bench, pilot):
        await pilot.press("ctrl+e", "f6", "enter")
        await pilot.pause()
        assert "The note is empty" in screen_text(bench.coach)
        await pilot.press("escape", "escape")
        await pilot.pause()
        assert isinstance(bench.coach.screen, BenchScreen)


async def test_the_last_step_can_be_taken_up_again_from_it(shop: Shop, job: Session) -> None:
    finish(job)
    async with at_the_bench(shop, job, size=COMMON) as (bench, pilot):
        await pilot.press("ctrl+e", "f5")
        await pilot.pause()
        assert isinstance(bench.coach.screen, BenchScreen)
        assert job.standing().step is not None


async def test_a_job_under_way_is_told_so_far_and_has_nothing_to_take_up_again(
    shop: Shop, job: Session
) -> None:
    async with at_the_bench(shop, job, size=COMMON) as (bench, pilot):
        await pilot.press("ctrl+e")
        await pilot.pause()
        drawn = screen_text(bench.coach)
        assert "so far, 0 of 3 steps done" in drawn
        assert "F5" not in drawn


async def test_it_shows_what_another_window_enters(shop: Shop, job: Session) -> None:
    finish(job)
    async with at_the_bench(shop, job, size=ROOMY) as (bench, pilot):
        await pilot.press("ctrl+e")
        await pilot.pause()
        other = Shop(shop.log.path, shop._clock)
        with other:
            other.open(job.job).note("seen from the next room")
        screen = bench.coach.screen
        assert isinstance(screen, SheetScreen)
        screen.catch_up()
        await pilot.pause()
        assert "seen from the next room" in screen_text(bench.coach)


async def test_it_is_reached_from_where_a_job_is_resumed(shop: Shop, job: Session) -> None:
    finish(job)
    async with on_stage(shop, job, size=COMMON) as (app, pilot):
        await pilot.press("ctrl+e")
        await pilot.pause()
        assert isinstance(app.screen, SheetScreen)


async def test_a_window_that_shrinks_and_grows_again_loses_nothing(shop: Shop, job: Session) -> None:
    finish(job)
    async with at_the_bench(shop, job, size=ROOMY) as (bench, pilot):
        await pilot.press("ctrl+e")
        await settled(bench.coach, pilot)
        before = screen_text(bench.coach)
        await pilot.resize_terminal(20, 6)
        await settled(bench.coach, pilot)
        await pilot.resize_terminal(*ROOMY)
        await settled(bench.coach, pilot)
        assert screen_text(bench.coach) == before


async def test_the_shop_shows_the_sheet_of_any_job_and_says_that_a_recipe_has_none(
    shop: Shop, job: Session, tmp_path: Path
) -> None:
    finish(job)
    async with on_stage(shop, size=COMMON, folders=recipes(tmp_path)) as (app, pilot):
        await pilot.pause(0.1)
        await pilot.press("ctrl+e")
        await pilot.pause()
        assert isinstance(app.screen, SheetScreen)
        await pilot.press("escape", "tab", "ctrl+e")
        await pilot.pause()
        assert "a recipe has no sheet before it is begun" in screen_text(app)


async def test_the_end_of_the_last_step_shows_what_came_of_it(shop: Shop, job: Session) -> None:
    job.done(2)
    job.done(1)
    async with at_the_bench(shop, job, size=COMMON) as (bench, pilot):
        await pilot.press("f4", "f4")
        await pilot.pause()
        assert isinstance(bench.coach.screen, SheetScreen)
        await pilot.press("escape", "f8")  # it can be undone as ever
        await pilot.pause()
        assert isinstance(bench.coach.screen, BenchScreen)
        assert job.standing().step is not None


async def test_a_finished_job_opens_in_the_shop_at_what_came_of_it_and_can_be_measured_again(
    shop: Shop, job: Session
) -> None:
    finish(job)
    async with on_stage(shop, size=COMMON) as (app, pilot):
        await pilot.pause(0.1)
        await pilot.press("enter")
        await pilot.pause()
        assert isinstance(app.screen, SheetScreen)
        await pilot.press("enter")
        await pilot.pause()
        assert isinstance(app.screen, BenchScreen)


async def test_the_last_step_is_taken_up_again_at_the_bench_from_the_shop_too(
    shop: Shop, job: Session
) -> None:
    finish(job)
    async with on_stage(shop, size=COMMON) as (app, pilot):
        await pilot.pause(0.1)
        await pilot.press("enter", "f5")
        await pilot.pause()
        assert isinstance(app.screen, BenchScreen)
        assert "back at step 3" in screen_text(app).lower()


async def test_at_80_by_24_no_name_of_a_long_drawing_is_cut(shop: Shop) -> None:
    path = Path(__file__).parents[2] / "recipes" / "carpenters-adze.yaml"
    adze = shop.begin(path.read_text("utf-8"), path.name)
    while adze.standing().step is not None:
        adze.done()
    async with on_stage(shop, adze) as (app, pilot):
        app.lay_over("sheet", adze)
        await settled(app, pilot)
        assert "blade curve height" in words_on(app)
        assert "…" not in words_on(app)


async def test_the_sizes_as_drawn_are_told_apart_from_the_heats_at_the_bench_of_a_finished_job(
    shop: Shop,
) -> None:
    chisel = at_step_of("cold-chisel", 99)  # 0/10 in 12 heats: too near each other it is 0/1012
    async with at_the_bench(shop, chisel) as (bench, _):
        rows = screen_text(bench.coach).splitlines()[2:7]
        taken = "".join("#" if any(row[at : at + 1].strip() for row in rows) else " " for at in range(1, 60))
        gaps = [len(gap) for gap in re.findall(" +", taken.strip())]
        assert max(gaps) >= 3
        assert gaps.count(1) == len(gaps) - 1  # between the digits of a number
