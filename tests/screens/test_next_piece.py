"""Several pieces in one fire at the bench: one key has the next in hand, and each keeps its heats."""

from __future__ import annotations

from textual.widgets import Input

from coach.bench.session import Session
from coach.bench.shop import Shop
from coach.drafting.make import made_often
from coach.places import bundled_recipes
from tests.bench.test_piece_in_hand import PINS, in_hand
from tests.screens.stage import answer_on, at_the_bench, on_stage, words_on


async def test_one_key_goes_over_to_the_next_piece_and_back_and_undo_takes_it_back(shop: Shop) -> None:
    pins = shop.begin(PINS.replace("make: 3", "make: 2"), "pin.yaml")
    for _ in range(2):
        pins.done()
    async with at_the_bench(shop, pins) as (bench, pilot):
        await pilot.press("f2", "greater_than_sign")
        await pilot.pause()
        assert in_hand(pins) == ("pin 2 shank", 0)
        assert "pin 2 shank" in words_on(bench.coach)
        step = pins.standing().step
        assert step is not None
        assert f"on with pin 2: step {step.number}, {step.title}" in words_on(bench.coach)
        await pilot.press("f2")
        await pilot.press("greater_than_sign")
        await pilot.pause()
        assert in_hand(pins) == ("pin 1 shank", 1)
        await pilot.press("f8")
        assert in_hand(pins) == ("pin 2 shank", 1)


async def test_where_nothing_is_made_alike_there_is_no_such_key(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        assert "greater_than_sign" not in {one.key for one in bench.keys_now()}
        before = job.standing()
        await pilot.press("greater_than_sign", "4")
        assert job.standing() == before
        assert "No other piece is still to have step" in answer_on(bench.coach)
        assert pilot.app.screen.query_one(Input).value == "4", "and the sign is no part of a size"


async def test_the_key_goes_to_the_bench_from_the_card_of_a_job_that_is_resumed(shop: Shop) -> None:
    pins = shop.begin(PINS.replace("make: 3", "make: 2"), "pin.yaml")
    for _ in range(2):
        pins.done()
    pins.heat()
    async with on_stage(shop, pins) as (app, pilot):
        await pilot.press("greater_than_sign")
        for _ in range(3):
            await pilot.pause()
        assert in_hand(pins) == ("pin 2 shank", 0)
        assert pilot.app.screen.query_one(Input).value == "", "and the sign is no part of a size"
        assert "on with pin 2: step" in words_on(app)


async def test_a_piece_inside_its_bar_is_told_as_that(shop: Shop) -> None:
    hook = (bundled_recipes() / "first-hook.yaml").read_text(encoding="utf-8")
    hooks = shop.begin(made_often(hook, 2), "first-hook.yaml")
    while (step := hooks.standing().step) is not None and step.operation != "taper":
        hooks.done()
    async with at_the_bench(shop, hooks) as (bench, pilot):
        await pilot.press("greater_than_sign")
        await pilot.pause()
        told = answer_on(bench.coach)
        assert "hook 2 lies inside the bar until step" in told
        assert "cuts hook 1 off: its turn is then" in told
