"""Sizes typed at the bench: taken, judged, refused, questioned."""

from __future__ import annotations

import pytest
from textual.pilot import Pilot
from textual.widgets import Input

from coach.bench.checks import Check
from coach.bench.session import Session
from coach.bench.shop import Shop
from coach.drawing.large import MIDDLE, Stroke, large
from coach.screens.bench import BenchScreen
from tests.bench.jobs import at_step_of
from tests.screens.stage import answer_on, at_the_bench, screen_text, words_on


async def enter(bench: BenchScreen, pilot: Pilot[None], typed: str) -> None:
    """Put text in the box and press Enter."""
    bench.query_one(Input).value = typed
    await pilot.press("enter")


def check(session: Session, name: str) -> Check:
    return next(check for check in session.standing().checks if check.name == name)


async def test_digits_and_enter_are_enough_to_take_a_reading(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("8", ".", "1", "enter")
        assert bench.query_one(Input).value == ""
        assert answer_on(bench.coach).startswith("point side 8.1 mm: good")
        assert "✓ good" in words_on(bench.coach)
    reading = check(job, "point.side").reading
    assert reading is not None
    assert reading.size.value == pytest.approx(8.1)


async def test_a_comma_is_a_decimal_point(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (_, pilot):
        await pilot.press("8", ",", "1", "enter")
    reading = check(job, "point.side").reading
    assert reading is not None
    assert reading.size.value == pytest.approx(8.1)


@pytest.mark.parametrize("typed", ["thick", "8..1", "9**9**9", "[/", "1,500", "-3", "8 V"])
async def test_nonsense_is_refused_and_stays_in_the_box(shop: Shop, job: Session, typed: str) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await enter(bench, pilot, typed)
        assert bench.query_one(Input).value == typed
        assert answer_on(bench.coach).startswith("! point side: ")
    assert job.standing().last_entry == 1


async def test_the_box_says_which_size_it_takes_next(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        assert "point side cold, by calliper" in words_on(bench.coach)
        await enter(bench, pilot, "8")
        assert "point length cold, by" in words_on(bench.coach)


async def test_enter_on_an_empty_box_skips_to_the_next_size(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("enter")
        assert "▸ length" in words_on(bench.coach)
    assert job.standing().last_entry == 1


async def test_the_arrows_choose_a_size_and_go_round(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("down")
        assert "▸ length" in words_on(bench.coach)
        await pilot.press("down", "down")
        assert "▸ side" in words_on(bench.coach)
        await pilot.press("up")
        assert "▸" not in words_on(bench.coach)


async def test_a_size_that_is_not_good_yet_is_asked_for_again(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await enter(bench, pilot, "10.5")
        assert "▼ 2.5" in words_on(bench.coach)
        # 12 mm square drawn to 10.5 mm grows by (12 / 10.5)²; the plan marks out about 40 mm of it.
        await enter(bench, pilot, "53")
        assert "▸ side" in words_on(bench.coach)


async def test_hot_stays_in_its_step_until_it_is_changed(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("f7")
        assert "HOT, by calliper" in words_on(bench.coach)
        await enter(bench, pilot, "8.1")
        await enter(bench, pilot, "91")
        await pilot.press("f7")
        assert answer_on(bench.coach) == "Readings are now taken cold."
    for name in ("point.side", "point.length"):
        reading = check(job, name).reading
        assert reading is not None
        assert reading.hot is not None
        assert reading.cold.value < reading.size.value


async def test_a_questioned_reading_counts_when_it_is_read_again(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await enter(bench, pilot, "30")
        assert "Take it again" in answer_on(bench.coach)
        assert "read it again" in words_on(bench.coach)
        assert "▸ side" in words_on(bench.coach)
        await enter(bench, pilot, "30")
        assert "read it again" not in words_on(bench.coach)
    assert job.standing().questioned == ()


async def test_one_key_stands_by_a_questioned_reading(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await enter(bench, pilot, "30")
        await pilot.press("f12")
        assert "read it again" not in words_on(bench.coach)
    reading = check(job, "point.side").reading
    assert reading is not None
    assert reading.insisted


async def test_the_box_follows_the_size_that_was_questioned_last_though_it_was_named(
    shop: Shop, job: Session
) -> None:
    """Else F12 stood by another size than the one that the answer had just named."""
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("down")
        await enter(bench, pilot, "300")
        assert answer_on(bench.coach).startswith("! point length 300 mm")
        await enter(bench, pilot, "1=30")
        assert answer_on(bench.coach).startswith("! point side 30 mm")
        assert "▸ side" in words_on(bench.coach)
        await pilot.press("f12")
        assert "point side 30 mm: it stands, and contradicts the metal" in answer_on(bench.coach)
    side, length = check(job, "point.side").reading, check(job, "point.length").reading
    assert side is not None
    assert length is not None
    assert (side.insisted, length.insisted, length.questioned) == (True, False, True)


async def test_a_size_questioned_by_its_whole_name_is_the_one_that_the_same_number_again_is_of(
    shop: Shop, job: Session
) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await enter(bench, pilot, "30")
        await enter(bench, pilot, "point length=300")
        assert answer_on(bench.coach).startswith("! point length 300 mm")
        await enter(bench, pilot, "300")
    length = check(job, "point.length").reading
    assert length is not None
    assert not length.questioned


async def test_a_questioned_size_of_another_step_is_stood_by_with_the_key_that_the_answer_names(
    shop: Shop, job: Session
) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await enter(bench, pilot, "30")
        await enter(bench, pilot, "shank side=300")
        assert "F12, makes it stand" in answer_on(bench.coach)
        await pilot.press("f12")
    side = check(job, "point.side").reading
    assert side is not None
    assert not side.insisted
    shank = job.history()[-1].reading
    assert shank is not None
    assert (shank.zone, shank.insisted) == ("shank", True)


async def test_there_is_nothing_to_insist_on_before_a_question(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await enter(bench, pilot, "8")
        await pilot.press("f12")
        assert answer_on(bench.coach) == "! Only a reading that was questioned can be insisted on."
    assert job.standing().last_entry == 2


async def test_a_reading_questioned_before_a_heat_cannot_be_stood_by_after_it(
    shop: Shop, job: Session
) -> None:
    """The heat has worked the size: what was read before it says nothing of what it is now."""
    async with at_the_bench(shop, job) as (bench, pilot):
        await enter(bench, pilot, "30")
        assert "F12, makes it stand" in answer_on(bench.coach)
        await pilot.press("f2")
        assert "never counted" in words_on(bench.coach)
        entered = job.standing().last_entry
        await pilot.press("f12")
        assert answer_on(bench.coach) == (
            "! point side 30 mm: read before it was last worked. Read it again."
        )
        assert "F12 it is so" not in words_on(bench.coach)
    assert job.standing().last_entry == entered


async def test_a_number_without_a_size_is_kept_in_the_box(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("up")
        await enter(bench, pilot, "8")
        assert bench.query_one(Input).value == "8"
        assert answer_on(bench.coach) == "! Choose with ↑ or ↓ which size this is."


async def test_a_size_in_inches_is_drawn_large_too(shop: Shop, job: Session) -> None:
    job.system = "in"
    async with at_the_bench(shop, job) as (bench, pilot):
        # 8 ±0.8 mm in thousandths, for no fractions lie so near to its limits: 8 / 25.4 = 0.315.
        drawn = [large("0.315", MIDDLE, stroke) for stroke in Stroke]
        assert any(all(row in screen_text(bench.coach) for row in rows) for rows in drawn)
        await enter(bench, pilot, "5/16")
        assert answer_on(bench.coach).startswith("point side 5/16 in")


async def test_hot_falls_back_at_the_end_of_its_step_and_says_so(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("f7", "f2", "f3", "f2", "enter")
        assert "HOT" in words_on(bench.coach), "the piece is hot all the while"
        await pilot.press("f4", "f4")
        assert answer_on(bench.coach).endswith("Next: Draw the shank. Cold again.")
        assert "HOT" not in words_on(bench.coach)
        await pilot.press("f5")
        assert "HOT" not in words_on(bench.coach)
        assert "Cold again." not in answer_on(bench.coach)


async def test_hot_falls_back_when_the_clock_of_its_heat_is_given_up(shop: Shop, job: Session) -> None:
    moments = ["2026-03-02T09:04:02Z"]
    async with at_the_bench(shop, job, now=lambda: moments[-1]) as (bench, pilot):
        await pilot.press("f2", "f7")
        assert "HOT" in words_on(bench.coach)
        moments.append("2026-03-02T09:30:00Z")
        bench.tick()
        await pilot.pause()
        assert "HOT" not in words_on(bench.coach)
        assert answer_on(bench.coach) == "The heat is long over: sizes are read cold again."
        await pilot.press("f7")
        bench.tick()
        await pilot.pause()
        assert "HOT" in words_on(bench.coach), "what is chosen afterwards stays"


async def test_hot_is_not_taken_along_to_the_shop_and_back(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("f2", "f7", "escape")
        await pilot.pause()
        await pilot.press("enter", "enter")
        await pilot.pause()
        assert "cold, by calliper" in words_on(bench.coach)


async def test_a_size_read_cold_while_the_metal_glows_is_made_a_hot_one_by_one_key(
    shop: Shop, job: Session
) -> None:
    moments = ["2026-03-02T09:04:02Z"]
    async with at_the_bench(shop, job, now=lambda: moments[-1]) as (bench, pilot):
        await enter(bench, pilot, "11")
        assert "F7" not in answer_on(bench.coach), "nothing was said of the fire"
        await pilot.press("f2")
        clock = job.standing().clock
        assert clock is not None
        moments.append(clock.since.replace(":00.000Z", ":05Z"))
        await enter(bench, pilot, "10.5")
        assert answer_on(bench.coach).endswith("Read hot? F7 says so.")
        await pilot.press("f7")
        await pilot.pause()
        reading = check(job, "point.side").reading
        assert reading is not None
        assert (reading.typed, reading.hot is not None) == ("10.5", True)
        assert "at about 900 °C" in answer_on(bench.coach)
        assert "HOT" in words_on(bench.coach)


async def test_a_heat_leaves_the_box_at_the_size_that_is_chosen(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("down")
        for key in ("f2", "f3"):
            await pilot.press(key)
            assert "▸ length" in words_on(bench.coach)


async def test_a_reading_that_is_struck_out_is_asked_for_again(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("down")
        await enter(bench, pilot, "91")
        await pilot.press("f8")
        assert "▸ length" in words_on(bench.coach)


async def test_at_a_step_that_is_done_cold_nothing_is_read_hot(shop: Shop, job: Session) -> None:
    job.done()
    job.done()  # looked over, cold
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("f7")
        assert answer_on(bench.coach) == "! This step is done cold: its sizes are read cold."
        assert "HOT" not in words_on(bench.coach)


async def test_a_good_reading_of_a_piece_that_is_off_plan_is_no_alarm(shop: Shop, job: Session) -> None:
    job.read("point.length", "70", insist=True)
    async with at_the_bench(shop, job) as (bench, pilot):
        await enter(bench, pilot, "side=8")
        assert answer_on(bench.coach).startswith("!")  # by it the length is known to be out
        await enter(bench, pilot, "side=8.1")
        assert job.standing().is_off
        assert not answer_on(bench.coach).startswith("!")
        await pilot.press("f6", "a", "enter")
        await pilot.pause()
        assert not answer_on(bench.coach).startswith("!")
        await enter(bench, pilot, "side=5")
        assert answer_on(bench.coach).startswith("!")


async def test_a_gauge_that_was_chosen_is_of_sizes_and_of_no_heat(shop: Shop) -> None:
    chisel = at_step_of("cold-chisel", 10)
    async with at_the_bench(shop, chisel) as (bench, pilot):
        await pilot.press("slash", *"280", "enter")
        await pilot.pause()
        assert "leave the gauge out" not in answer_on(bench.coach)
    read = {one.dimension: one.reading.gauge for one in chisel.standing().checks if one.reading is not None}
    assert read == {"temperature": "pyrometer"}


@pytest.mark.parametrize("typed", ["40 blows", "blows 40", "40 BLOWS"])
async def test_blows_that_are_typed_are_of_the_last_heat_and_the_size_stays_asked(
    shop: Shop, job: Session, typed: str
) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await enter(bench, pilot, typed)
        assert "No heat is marked that these blows were struck in" in answer_on(bench.coach)
        bench.query_one(Input).value = ""
        await pilot.press("f2")
        await enter(bench, pilot, typed)
        assert answer_on(bench.coach).startswith("40 blows in the last heat of step 1")
        await pilot.press("8", ".", "1", "enter")
        assert answer_on(bench.coach).startswith("point side 8.1 mm: good")
    step = job.sheet().heats.steps[0]
    assert (step.blows, step.blows_of) == (40, 1)


async def test_more_blows_than_anyone_strikes_are_refused_and_stay_in_the_box(
    shop: Shop, job: Session
) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("f2")
        for typed in ("9999 blows", f"{10**30} blows"):
            await enter(bench, pilot, typed)
            assert bench.query_one(Input).value == typed
    assert job.sheet().heats.steps[0].blows_of == 0
