"""Metal lost at the bench: which zone, how much, what took it; then what it does, and Enter enters it."""

from __future__ import annotations

import pytest
from textual.pilot import Pilot
from textual.widgets import Input

from coach.bench.entering import EntryFault
from coach.bench.session import Session
from coach.bench.shop import Shop
from coach.drafting.make import made_often
from coach.places import bundled_recipes
from coach.screens.bench import BenchScreen
from coach.screens.happened import HappenedScreen
from tests.bench.jobs import HAMMER, at_step_of, begun
from tests.screens.stage import answer_on, at_the_bench, showing, words_on


async def _type(pilot: Pilot[None], text: str) -> None:
    pilot.app.screen.query_one(Input).value = text
    await pilot.press("enter")
    await pilot.pause()


async def test_four_answers_show_what_a_loss_does_and_enter_enters_it(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("insert")
        await pilot.pause()
        assert showing(pilot.app) is HappenedScreen
        await _type(pilot, "")  # metal is gone
        await _type(pilot, "")  # the zone of the step in hand
        await _type(pilot, "30")
        assert job.standing().last_entry == 1
        await _type(pilot, "")
        assert "Lost: 30 mm of the end of the point, burnt" in words_on(bench.coach)
        assert "With it Off plan" in words_on(bench.coach)
        assert job.standing().last_entry == 1
        await pilot.press("enter")
        await pilot.pause()
        assert showing(pilot.app) is BenchScreen
        assert "30 mm of the end of the point, burnt" in answer_on(bench.coach)
        assert job.standing().verdict == "off plan"
        await pilot.press("f8")
        assert job.standing().verdict == "on plan"


async def test_the_arrows_turn_through_zones_and_causes_and_a_number_chooses_one(
    shop: Shop, job: Session
) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("insert")
        await pilot.pause()
        assert "1 metal is gone 2 a crack 3 bent or dropped" in words_on(bench.coach)
        await _type(pilot, "1")
        assert "1 point 2 shank" in words_on(bench.coach)
        await pilot.press("down", "down")
        assert pilot.app.screen.query_one(Input).value == "shank"
        await _type(pilot, "1")
        assert "To which zone: point" in words_on(bench.coach)
        await _type(pilot, "5 g")
        await pilot.press("up")
        assert pilot.app.screen.query_one(Input).value == "something else"


async def test_each_kind_keeps_its_number_in_every_job_and_what_cannot_be_says_why(
    shop: Shop, job: Session
) -> None:
    every = "1 metal is gone 2 a crack 3 bent or dropped 4 a weld is open 5 a piece is given up"
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("insert")
        await pilot.pause()
        assert every in words_on(bench.coach)
        await _type(pilot, "4")
        assert "No weld of this job is made yet" in answer_on(bench.coach)
        await _type(pilot, "5")
        assert "No piece of it can be given up by itself" in answer_on(bench.coach)
        await pilot.press("up")
        assert pilot.app.screen.query_one(Input).value == "bent or dropped", "the arrows pass over both"
        await _type(pilot, "2")
        assert "To which zone: 1 point" in words_on(bench.coach)
    welded = begun(HAMMER, shop)
    assert welded.welds_there() == (), "the face is welded on later"
    while not welded.welds_there():
        welded.done()
    async with at_the_bench(shop, welded) as (bench, pilot):
        await pilot.press("insert")
        await pilot.pause()
        assert every in words_on(bench.coach)
        await _type(pilot, "4")
        assert "To which zone: 1 poll" in words_on(bench.coach)


async def test_what_cannot_be_is_said_and_asked_again(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("insert")
        await pilot.pause()
        await _type(pilot, "")
        await _type(pilot, "")
        await _type(pilot, "900")
        await _type(pilot, "")
        assert "so much of it cannot be lost" in answer_on(bench.coach)
        assert "To which zone: point" in words_on(bench.coach)
        assert pilot.app.screen.query_one(Input).value == "900"
        await pilot.press(
            "3", "0"
        )  # how much is asked again, and what is typed stands in the old one's place
        assert pilot.app.screen.query_one(Input).value == "30"
        await pilot.press("enter", "enter")
        await pilot.pause()
        assert "Lost: 30 mm of the end of the point, burnt" in words_on(bench.coach)


async def test_an_answer_that_is_no_choice_is_typed_over(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("insert")
        await pilot.pause()
        await _type(pilot, "fell off")
        assert "not 'fell off'" in answer_on(bench.coach)
        await pilot.press("3")
        assert pilot.app.screen.query_one(Input).value == "3"


async def test_an_empty_amount_says_what_to_type(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("insert")
        await pilot.pause()
        await _type(pilot, "")
        await _type(pilot, "")
        await _type(pilot, "")
        assert "Type how much is gone" in answer_on(bench.coach)
        await pilot.press("escape", "escape", "escape")
        await pilot.pause()
        assert showing(pilot.app) is BenchScreen


async def test_a_crack_counts_as_its_test_failed_and_is_shown_before_it_is_entered(
    shop: Shop, job: Session
) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("insert")
        await _type(pilot, "2")
        await _type(pilot, "2")
        assert "Shank crack test: failed" in words_on(bench.coach)
        assert job.standing().last_entry == 1
        await pilot.press("enter")
        await pilot.pause()
        assert showing(pilot.app) is BenchScreen
        assert [right.words for right in job.standing().to_right] != []
        await pilot.press("f8")
        assert not job.standing().to_right


async def test_a_piece_that_fell_goes_on_the_list_to_put_right(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (_, pilot):
        await pilot.press("insert")
        await _type(pilot, "3")
        await _type(pilot, "")
        await _type(pilot, "")  # not measured
        await pilot.press("enter")
        await pilot.pause()
        assert "true it" in " ".join(str(right.words) for right in job.standing().to_right)


async def test_by_how_much_it_was_bent_goes_with_it_to_the_list(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("insert")
        for typed in ("3", "", "4"):
            await _type(pilot, typed)
        assert "bowed by 4 mm" in words_on(bench.coach)
        await pilot.press("enter")
        await pilot.pause()
        assert "bowed by 4 mm" in " ".join(str(right.words) for right in job.standing().to_right)


async def test_a_zone_that_the_piece_has_not_is_refused_at_once_with_those_that_it_has(
    shop: Shop, job: Session
) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("insert")
        await _type(pilot, "")
        await _type(pilot, "bowl")
        assert "The piece has no zone 'bowl' at this moment: type point or shank." in answer_on(bench.coach)
        assert pilot.app.screen.query_one(Input).value == "bowl", "it stays to be mended"
        await _type(pilot, "SHA")
        assert "To which zone: shank" in words_on(bench.coach)


def test_a_zone_is_there_once_it_is_made_and_until_it_is_split() -> None:
    fork = at_step_of("meat-fork", 1)
    there = fork.zones_there()
    assert "end" in there
    assert not {"tine", "hook"} & {*there}
    fork.done()  # the marks; the split is not begun yet
    assert fork.zones_there() == there
    fork.heat()
    assert {"tine", "hook"} <= {*fork.zones_there()}
    assert "end" not in fork.zones_there()


def test_a_weld_can_only_be_open_where_one_is_made() -> None:
    session = begun(HAMMER)
    assert session.zones_put_to("weld_line") == ("poll",)
    with pytest.raises(EntryFault, match="has no 'weld line'"):
        session.read("eye.weld_line", "fail")


async def test_a_piece_of_several_is_given_up_with_few_keys(shop: Shop) -> None:
    text = (bundled_recipes() / "first-hook.yaml").read_text(encoding="utf-8")
    several = shop.begin(made_often(text, 3), "first-hook.yaml")
    async with at_the_bench(shop, several) as (bench, pilot):
        await pilot.press("insert")
        await pilot.pause()
        assert "a piece is given up" in words_on(bench.coach)
        await _type(pilot, "5")
        assert "Which piece: 1 hook 1 2 hook 2 3 hook 3" in words_on(bench.coach)
        await _type(pilot, "3")
        assert "Hook 3 given up" in words_on(bench.coach)
        assert several.standing().given_up == ()
        await pilot.press("enter")
        await pilot.pause()
        assert several.standing().given_up == ("hook 3",)
        assert "hook 3 given up" in answer_on(bench.coach).lower()
        await pilot.press("f8")
        await pilot.pause()
        assert several.standing().given_up == ()
