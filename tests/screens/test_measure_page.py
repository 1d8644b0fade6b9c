"""The page of the bench that tells what to measure first."""

from __future__ import annotations

import pytest

from coach.bench.session import Session
from coach.bench.shop import Shop
from tests.bench.jobs import begun, shop
from tests.ledger.recipes import DRAW
from tests.screens.stage import COMMON, at_the_bench, settled, words_on


@pytest.fixture
def place() -> Shop:
    return shop()


@pytest.fixture
def job(place: Shop) -> Session:
    return begun(DRAW, place)


@pytest.mark.parametrize("size", [(60, 20), COMMON, (160, 48)])
async def test_the_page_tells_what_would_tell_most(place: Shop, job: Session, size: tuple[int, int]) -> None:
    job.heat()
    first = job.doubt().would_tell[0]
    async with at_the_bench(place, job, size=size) as (bench, pilot):
        await pilot.press("tab", "tab", "tab")
        await settled(bench.coach, pilot)
        await bench.coach.workers.wait_for_complete()
        await settled(bench.coach, pilot)
        assert "To measure first" in words_on(bench.coach)
        if size != (60, 20):
            assert first.label in words_on(bench.coach)


async def test_what_is_entered_meanwhile_brings_the_work_back(place: Shop, job: Session) -> None:
    async with at_the_bench(place, job) as (bench, pilot):
        await pilot.press("f2", "tab", "tab", "tab", "4", "0", "enter")
        await settled(bench.coach, pilot)
        await bench.coach.workers.wait_for_complete()
        await settled(bench.coach, pilot)
        assert "To measure first" not in words_on(bench.coach)
        assert any(one.reading is not None for one in job.history())


async def test_the_bench_may_be_left_while_readings_are_tried(place: Shop, job: Session) -> None:
    async with at_the_bench(place, job) as (bench, pilot):
        coach = bench.coach
        await pilot.press("f2", "tab", "tab", "tab", "escape", "escape", "escape")
        await coach.workers.wait_for_complete()
        await settled(coach, pilot)
        assert coach.screen is not bench
