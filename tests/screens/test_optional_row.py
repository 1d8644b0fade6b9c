"""The row of a hardness that nobody has to read, at the bench."""

from __future__ import annotations

from coach.bench.shop import Shop
from tests.bench.test_optional_hardness import at_its_temper
from tests.screens.stage import at_the_bench, words_on


async def test_the_box_comes_to_it_when_all_else_is_good_and_one_enter_ends_the_step(shop: Shop) -> None:
    job = at_its_temper("cold-chisel")
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press(*"275", "enter", *"2h", "enter", "1", "enter")
        assert "▸ hardness" in words_on(bench.coach)
        assert "optional" in words_on(bench.coach)
        await pilot.press(*"HRC 60", "enter")
        assert "2 HRC over the 58 HRC allowed" in words_on(bench.coach)


async def test_one_enter_ends_a_step_whose_hardness_nobody_reads(shop: Shop) -> None:
    job = at_its_temper("cold-chisel")
    job.heat()
    async with at_the_bench(shop, job) as (bench, pilot):
        number = bench.session.standing().step.number  # type: ignore[union-attr]
        await pilot.press(*"275", "enter", *"2h", "enter", "1", "enter")
        assert "▸ hardness" in words_on(bench.coach)
        await pilot.press("enter")
        assert bench.session.standing().step.number == number + 1  # type: ignore[union-attr]
