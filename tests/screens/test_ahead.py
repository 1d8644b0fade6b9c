"""What is ahead, at the bench: the rest in hours, and how far it comes by an hour that is typed."""

from __future__ import annotations

import re

from textual.widgets import Input

from coach.bench.session import Session
from coach.bench.shop import Shop
from coach.screens.ahead import AheadScreen
from coach.screens.bench import BenchScreen
from tests.bench.jobs import at_step_of
from tests.screens.stage import answer_on, at_the_bench, screen_text, settled, showing, words_on


async def test_the_rest_is_told_in_hours_and_an_hour_is_reckoned_with(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("ctrl+w")
        await pilot.pause()
        assert showing(pilot.app) is AheadScreen
        told = words_on(bench.coach)
        assert "3 heats" in told
        assert "by the usual: none is timed yet" in told
        assert "1 Draw the point" in told
        box = pilot.app.screen.query_one(Input)
        box.value = "soon"
        await pilot.press("enter")
        await pilot.pause()
        assert "'soon' is no hour: type an hour of today such as 17:00." in answer_on(bench.coach)
        assert box.value == "soon"  # nothing that was typed is lost
        box.value = "23:59"
        await pilot.press("enter")
        await pilot.pause()
        assert "By 23:59" in words_on(bench.coach)
        assert "Rest after step 3" in words_on(bench.coach)
        assert job.standing().last_entry == 1  # nothing is entered by it
        await pilot.press("escape")
        await pilot.pause()
        assert showing(pilot.app) is BenchScreen


async def test_of_a_finished_job_it_says_that_nothing_is_ahead(shop: Shop, job: Session) -> None:
    for _ in job.recipe.steps:
        job.done()
    async with at_the_bench(shop, job) as (bench, pilot):
        bench.coach.lay_over("ahead", job)
        await pilot.pause()
        assert showing(pilot.app) is AheadScreen
        assert "nothing is ahead" in answer_on(bench.coach)


async def test_what_is_ahead_tells_each_step_in_a_row_and_in_whole_minutes(shop: Shop) -> None:
    adze = at_step_of("carpenters-adze", 2)
    async with at_the_bench(shop, adze, size=(80, 40)) as (bench, pilot):
        await pilot.press("ctrl+w")
        await settled(bench.coach, pilot)
        told = screen_text(bench.coach)
        assert re.search(r"2 Set down the poll +2 +\d+ to \d+ min +yes", told)
        assert not re.search(r"min \d+ s", told)
