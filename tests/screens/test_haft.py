"""Fitting a haft at the bench: a question at a time, digits and Enter are enough, Esc goes back."""

from __future__ import annotations

from textual.pilot import Pilot
from textual.widgets import Input

from coach.bench.shop import Shop
from coach.screens.bench import BenchScreen
from coach.screens.haft import HaftScreen
from tests.bench.jobs import HAMMER
from tests.screens.stage import a_job, answer_on, at_the_bench, showing, words_on
from tests.spelt_out import file_text


async def _type(pilot: Pilot[None], text: str) -> None:
    pilot.app.screen.query_one(Input).value = text
    await pilot.press("enter")
    await pilot.pause()


async def test_digits_and_enter_fit_the_eye_and_undo_takes_it_back(shop: Shop) -> None:
    session = a_job(shop, file_text(HAMMER))
    before = session.recipe.drawing["eye"].limits["hole_width"].nominal
    async with at_the_bench(shop, session) as (bench, pilot):
        await pilot.press("ctrl+t")
        await pilot.pause()
        assert showing(pilot.app) is HaftScreen
        await _type(pilot, "27,5")
        await _type(pilot, "16.5")
        for _ in range(4):  # wood, moisture, moisture in use, turned: what is usual
            await _type(pilot, "")
        assert "Drift the eye to 27.1 mm × 16.1 mm." in words_on(bench.coach)
        await pilot.press("enter")
        await pilot.pause()
        assert showing(pilot.app) is BenchScreen
        assert "Drift the eye to 27.1 mm" in answer_on(bench.coach)
        assert round(session.recipe.drawing["eye"].limits["hole_width"].nominal, 1) == 16.1
        await pilot.press("f8")
        assert session.recipe.drawing["eye"].limits["hole_width"].nominal == before


async def test_the_arrows_choose_the_wood(shop: Shop) -> None:
    session = a_job(shop, file_text(HAMMER))
    async with at_the_bench(shop, session) as (_, pilot):
        await pilot.press("ctrl+t")
        await pilot.pause()
        await _type(pilot, "28")
        await _type(pilot, "17")
        await pilot.press("down", "down")
        assert pilot.app.screen.query_one(Input).value == "pignut hickory"
        await pilot.press("up")
        assert pilot.app.screen.query_one(Input).value == "white ash"


async def test_a_riven_haft_is_measured_at_two_places(shop: Shop) -> None:
    session = a_job(shop, file_text(HAMMER))
    async with at_the_bench(shop, session) as (bench, pilot):
        await pilot.press("ctrl+t")
        await pilot.pause()
        for told in ("28", "17", "", "", "", "27.6", "17.4"):
            await _type(pilot, told)
        assert "A riven haft is uneven" in words_on(bench.coach)


async def test_what_cannot_be_read_is_asked_again_and_nothing_is_entered(shop: Shop) -> None:
    session = a_job(shop, file_text(HAMMER))
    last = session.standing().last_entry
    async with at_the_bench(shop, session) as (bench, pilot):
        await pilot.press("ctrl+t")
        await pilot.pause()
        await _type(pilot, "")
        assert "type the size" in answer_on(bench.coach)
        for told in ("thick", "17", "", "", "", ""):
            await _type(pilot, told)
        assert "“thick”" in answer_on(bench.coach)
        assert showing(pilot.app) is HaftScreen
        assert pilot.app.screen.query_one(Input).value == "thick"
        await pilot.press("escape")
        await pilot.pause()
        assert showing(pilot.app) is BenchScreen
    assert session.standing().last_entry == last


async def test_esc_goes_back_one_question_and_keeps_what_was_typed(shop: Shop) -> None:
    session = a_job(shop, file_text(HAMMER))
    async with at_the_bench(shop, session) as (_, pilot):
        await pilot.press("ctrl+t")
        await pilot.pause()
        await _type(pilot, "28")
        await pilot.press("escape")
        assert pilot.app.screen.query_one(Input).value == "28"


async def test_a_job_without_an_eye_says_so(shop: Shop) -> None:
    session = a_job(shop)
    async with at_the_bench(shop, session) as (bench, pilot):
        await pilot.press("ctrl+t")
        await pilot.pause()
        for told in ("28", "17", "", "", "", ""):
            await _type(pilot, told)
        assert "no eye for a haft" in answer_on(bench.coach)
