"""A key that a glove presses twice at once acts once: no step ends and nothing else is struck."""

from __future__ import annotations

from coach.bench.session import Session
from coach.bench.shop import Shop
from coach.screens.bench import BenchScreen
from tests.screens.stage import answer_on, at_the_bench


def hold_still(bench: BenchScreen) -> list[float]:
    """Let the bench's stopwatch stand where the list says."""
    at = [100.0]
    bench.coach.stopwatch = lambda: at[0]
    return at


async def test_f4_twice_at_once_asks_and_ends_no_step(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        at = hold_still(bench)
        await pilot.press("f4", "f4", "f4")
        await pilot.pause()
        step = job.standing().step
        assert step is not None
        assert step.number == 1
        assert "Enter or F4" in answer_on(bench.coach) or "F4 counts" in answer_on(bench.coach)
        at[0] += 2.0
        await pilot.press("f4")
        await pilot.pause()
        step = job.standing().step
        assert step is not None
        assert step.number == 2


async def test_the_question_still_takes_a_yes_behind_a_key_that_bounced(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        hold_still(bench)
        await pilot.press("f4", "f4", "y", "enter")
        await pilot.pause()
        step = job.standing().step
        assert step is not None
        assert step.number == 2


async def test_an_enter_too_quick_to_answer_says_so_and_the_next_answers(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        at = hold_still(bench)
        await pilot.press("f4", "enter")
        at[0] += 0.6  # a hand that does not wait
        await pilot.press("enter")
        await pilot.pause()
        step = job.standing().step
        assert step is not None
        if step.number == 1:
            assert "came too quickly" in answer_on(bench.coach)
            assert "Enter or F4" in answer_on(bench.coach)
        at[0] += 0.8
        await pilot.press("enter")
        await pilot.pause()
        step = job.standing().step
        assert step is not None
        assert step.number == 2


async def test_f8_twice_at_once_strikes_one_entry_and_says_so(shop: Shop, job: Session) -> None:
    job.read("point.side", "8.1")
    job.read("point.length", "91")
    async with at_the_bench(shop, job) as (bench, pilot):
        at = hold_still(bench)
        await pilot.press("f8", "f8")
        await pilot.pause()
        read = {one.name: one.reading is not None for one in job.standing().checks}
        assert read == {"point.side": True, "point.length": False}
        assert "twice at once" in answer_on(bench.coach)
        at[0] += 2.0
        await pilot.press("f8")
        await pilot.pause()
        assert not any(one.reading for one in job.standing().checks)


async def test_f5_twice_at_once_goes_back_one_step(shop: Shop, job: Session) -> None:
    job.done(0)
    job.done(0)
    async with at_the_bench(shop, job) as (bench, pilot):
        hold_still(bench)
        await pilot.press("f5", "f5")
        await pilot.pause()
        step = job.standing().step
        assert step is not None
        assert step.number == 2
