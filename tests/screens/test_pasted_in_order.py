"""Lines of one paste go to the rows in order, whatever is good by now; what the end of a step asks."""

from __future__ import annotations

import pytest
from textual import events
from textual.widgets import Input

from coach.bench.shop import Shop
from tests.screens.stage import PEG, a_job, answer_on, at_the_bench, words_on
from tests.screens.test_typed_fast import BLOCK, read, typed_at_once


@pytest.mark.parametrize("bracketed", [True, False])
async def test_lines_of_one_paste_go_to_the_rows_in_order_from_the_chosen_one(
    shop: Shop, bracketed: bool
) -> None:
    job = a_job(shop, BLOCK)
    job.read("point.length", "90")  # it is good already
    async with at_the_bench(shop, job) as (bench, pilot):
        bench.coach.burst_s = 60.0
        assert bench.query_one(Input).value == ""
        if bracketed:
            bench.query_one(Input).post_message(events.Paste("8.1\n91\n11"))
            for _ in range(4):
                await pilot.pause()
        else:
            await typed_at_once(pilot, bench, "8.1\r91\r11")
        assert read(job) == {"point.side": "8.1", "point.length": "91"}
        assert bench.query_one(Input).value == "11"
        assert "shank side cold" in words_on(bench.coach)
        await pilot.press("enter")
        await pilot.pause()
    assert read(job) == {"point.side": "8.1", "point.length": "91", "shank.side": "11"}


@pytest.mark.parametrize("row", ["8.1\t91\t11", "8.1 \t 91\t11\t", "8.1\t91\n11", "\t8.1\t91\t11"])
async def test_the_cells_of_a_pasted_row_are_several_numbers(shop: Shop, row: str) -> None:
    job = a_job(shop, BLOCK)
    async with at_the_bench(shop, job) as (bench, pilot):
        bench.query_one(Input).post_message(events.Paste(row))
        for _ in range(4):
            await pilot.pause()
        assert read(job) == {"point.side": "8.1", "point.length": "91"}
        assert bench.query_one(Input).value == "11"


@pytest.mark.parametrize("row", ["8\t1/2", "8.1\t\t91"])
async def test_cells_that_cannot_be_told_apart_are_no_one_number(shop: Shop, row: str) -> None:
    """Two cells, 8 and 1/2, would be 8 1/2; an empty one leaves open whose number comes next."""
    job = a_job(shop, BLOCK)
    async with at_the_bench(shop, job) as (bench, pilot):
        bench.query_one(Input).post_message(events.Paste(row))
        for _ in range(4):
            await pilot.pause()
        await pilot.press("enter")
        await pilot.pause()
        assert read(job).get("point.side") in (None, "8")
        assert "8.5" not in words_on(bench.coach)
        if "\t\t" in row:
            assert not read(job)
            assert "one size at a time" in answer_on(bench.coach)


async def test_a_calliper_that_ends_its_numbers_with_tab_puts_each_at_its_size(shop: Shop) -> None:
    job = a_job(shop, BLOCK)
    async with at_the_bench(shop, job) as (bench, pilot):
        bench.coach.burst_s = 60.0
        await typed_at_once(pilot, bench, "8.1\t91\t11.2\t")
        await pilot.pause()
        assert bench.query_one(Input).value == ""
    assert read(job) == {"point.side": "8.1", "point.length": "91", "shank.side": "11.2"}


@pytest.mark.parametrize(
    ("typed", "sizes"),
    [
        ("8\t91.2\t11.2\t", ("8", "91.2", "11.2")),
        ("8.1\t9\t11\t", ("8.1", "9", "11")),
        ("1=8.1\t91.0\t3=11\t", ("8.1", "91.0", "11")),
        ("2=91\t8.1\t11\t", ("8.1", "91", "11")),
    ],
)
async def test_a_tab_within_a_burst_parts_two_numbers_whatever_they_look_like(
    shop: Shop, typed: str, sizes: tuple[str, ...]
) -> None:
    job = a_job(shop, BLOCK)
    async with at_the_bench(shop, job) as (bench, pilot):
        bench.coach.burst_s = 60.0
        await typed_at_once(pilot, bench, typed)
        await pilot.pause()
        assert bench.query_one(Input).value == ""
    assert tuple(read(job).values()) == sizes


async def test_tab_behind_a_number_that_a_hand_typed_turns_the_page(shop: Shop) -> None:
    job = a_job(shop, BLOCK)
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("8", "full_stop", "1", "tab")
        await pilot.pause()
        assert bench.query_one(Input).value == "8.1"
    assert read(job) == {}


async def test_the_box_says_what_enter_does_while_the_end_of_the_step_is_asked_about(shop: Shop) -> None:
    job = a_job(shop)
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("f4")
        await pilot.pause()
        assert "counts the 2 planned heats" in answer_on(bench.coach)
        told = words_on(bench.coach)
        assert "Enter counts the 2 planned heats" in told
        assert "type the size" not in told
        await pilot.press("escape")
        await pilot.pause()
        assert "type the size" in words_on(bench.coach)


async def test_two_idle_enters_end_no_step_whose_only_size_is_unread(shop: Shop) -> None:
    job = a_job(shop, PEG.replace("check: side, length", "check: side"))
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("enter")
        await pilot.pause()
        assert "Point side is not read" in answer_on(bench.coach)
        assert "Enter asks to end the step" in words_on(bench.coach)
        await pilot.press("enter")
        await pilot.pause()
        assert "Enter or F4 counts the 2 planned heats" in answer_on(bench.coach)
        assert "Enter counts the 2 planned heats" in words_on(bench.coach)
        assert job.standing().step is not None
        assert job.standing().last_entry == 1
        await pilot.press("enter")
        await pilot.pause()
        step = job.standing().step
        assert step is not None
        assert step.number == 2
