"""From one bench to another: what lies in the fire stands first, and Enter goes to its bench."""

from __future__ import annotations

from coach.bench.session import Session
from coach.bench.shop import Shop
from coach.screens.bench import BenchScreen
from coach.screens.others import OthersScreen
from tests.screens.stage import PEG, answer_on, at_the_bench, showing, words_on


async def test_one_key_and_enter_lead_to_the_other_bench_and_back(shop: Shop, job: Session) -> None:
    cold = shop.begin(PEG.replace("Tent peg", "Cold peg"), "cold.yaml")
    hot = shop.begin(PEG.replace("Tent peg", "Hot peg"), "hot.yaml")
    hot.heat()
    hot.fire()
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("ctrl+v")
        await pilot.pause()
        assert showing(pilot.app) is OthersScreen
        told = words_on(bench.coach)
        assert "Hot peg: lies in the fire since" in told
        assert told.index("Hot peg") < told.index("Cold peg: goes to the fire next")
        assert "· step 1/3, Draw the point" in told
        assert job.recipe.title not in told.partition("Hot peg")[2]
        await pilot.press("enter")
        await pilot.pause()
        assert showing(pilot.app) is BenchScreen
        assert bench.coach.in_hand is not None
        assert bench.coach.in_hand.job == hot.job
        await pilot.press("ctrl+v", "escape")
        await pilot.pause()
        assert showing(pilot.app) is BenchScreen
        assert cold.standing().last_entry == 1


async def test_alone_at_the_fire_it_says_so(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("ctrl+v")
        await pilot.pause()
        assert "No other job is in hand." in answer_on(bench.coach)
        await pilot.press("enter")
        await pilot.pause()
        assert showing(pilot.app) is OthersScreen
        await pilot.press("ctrl+v")
        await pilot.pause()
        assert showing(pilot.app) is BenchScreen
