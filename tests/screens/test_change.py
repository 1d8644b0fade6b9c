"""A change at the bench: said in a line, then what it does, and Enter enters it."""

from __future__ import annotations

from textual.pilot import Pilot
from textual.widgets import Input

from coach.bench.session import Session
from coach.bench.shop import Shop
from coach.drafting.make import made_often
from coach.places import bundled_recipes
from coach.screens.bench import BenchScreen
from coach.screens.change import ChangeScreen, such_as
from tests.bench.jobs import at_step_of
from tests.screens.stage import answer_on, at_the_bench, screen_text, settled, showing, words_on


async def _type(pilot: Pilot[None], text: str) -> None:
    pilot.app.screen.query_one(Input).value = text
    await pilot.press("enter")
    await pilot.pause()


async def test_a_line_shows_what_a_change_does_and_enter_enters_it(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("ctrl+x")
        await pilot.pause()
        assert showing(pilot.app) is ChangeScreen
        await _type(pilot, "heats 2 = 3")
        assert "2. Draw the shank: 3 heats, was 1" in words_on(bench.coach)
        assert job.standing().last_entry == 1
        await pilot.press("enter")
        await pilot.pause()
        assert showing(pilot.app) is BenchScreen
        assert "step 2, Draw the shank in 3 heats" in answer_on(bench.coach)
        assert job.recipe.steps[1].heats == 3
        await pilot.press("f8")
        assert job.recipe.steps[1].heats == 1


async def test_what_cannot_be_is_said_and_the_line_stays_to_be_mended(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("ctrl+x")
        await _type(pilot, "skip 33")
        assert "There is no step 33: the last one is 3." in answer_on(bench.coach)
        assert pilot.app.screen.query_one(Input).value == "skip 33"
        assert job.standing().last_entry == 1


async def test_what_may_be_typed_is_shown_of_this_job(shop: Shop, job: Session) -> None:
    names = {zone for step in job.recipe.steps for zone in step.zones}
    job.done()
    for line, _ in such_as(job):
        name, sign, _ = line.partition(".length = ")
        typed = f"{name}{sign}100 ±10" if sign else line
        assert job.change_told(typed), line
        assert not sign or name in names
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("enter", "ctrl+x")
        await pilot.pause()
        assert "shank.length = " in words_on(bench.coach)
        assert "skip 3" in words_on(bench.coach)


def test_what_may_be_typed_changes_something_and_is_not_refused() -> None:
    session = at_step_of("cold-chisel", 8)  # its quench and its temper stand ahead
    lines = [line for line, _ in such_as(session)]
    assert [line for line in lines if line.startswith(("skip", "put off"))]
    for line in lines:
        assert session.change_told(line), line


async def test_what_was_refused_makes_room_for_what_is_typed_next(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (_, pilot):
        await pilot.press("ctrl+x")
        await _type(pilot, "skip 33")
        await pilot.press("s", "k", "i", "p", "space", "2")
        assert pilot.app.screen.query_one(Input).value == "skip 2"


async def test_a_step_put_off_is_named_before_it_is_entered(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("ctrl+x")
        await pilot.pause()
        assert "put off" in words_on(bench.coach)
        await _type(pilot, "put off 1")
        assert "Draw the point put off behind step 2" in words_on(bench.coach)


async def test_on_a_small_terminal_how_it_stands_then_is_in_sight_and_page_down_reads_on(shop: Shop) -> None:
    """Of a batch a change of the drawing moves many marks and sizes: what counts is told before them."""
    text = (bundled_recipes() / "first-hook.yaml").read_text(encoding="utf-8")
    batch = shop.begin(made_often(text, 6), "first-hook.yaml", None)
    batch.done()
    async with at_the_bench(shop, batch, size=(80, 24)) as (bench, pilot):
        await pilot.press("enter", "ctrl+x")
        await _type(pilot, "tip.length = 120 ±6")
        first = screen_text(bench.coach)
        assert "Then" in first
        assert "heats in all" in first[first.index("Then") :]
        for _ in range(6):
            await pilot.press("pagedown")
        await settled(pilot.app, pilot)
        assert screen_text(bench.coach) != first
        last = words_on(bench.coach).split()[-2:]
        assert " ".join(last) in " ".join(screen_text(bench.coach).split())
