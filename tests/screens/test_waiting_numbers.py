"""Numbers that wait at the bench are entered in the order they were typed, and none is lost unsaid."""

from __future__ import annotations

from pathlib import Path

import pytest
from textual import events
from textual.pilot import Pilot
from textual.screen import Screen
from textual.widgets import Input

from coach.bench.session import Session
from coach.bench.shop import Shop
from coach.screens.app import CoachApp
from coach.screens.bench import BenchScreen
from coach.screens.resume import ResumeScreen
from tests.bench.jobs import at_step_of
from tests.screens.stage import a_job, answer_on, at_the_bench, clock, on_stage, settled, words_on
from tests.screens.test_typed_fast import BLOCK, burst, read, typed_at_once

#: The same with a second step that asks for two sizes of its own.
TWO_STEPS = BLOCK.replace(
    "    title: Draw the shank\n    check: side", "    title: Draw the shank\n    check: side, length"
)


def end_elsewhere(job: Session, folder: Path) -> None:
    """The step in hand ended by a command in another window."""
    with Shop(folder / "shop.sqlite", clock()) as other:
        other.open(job.job).done()


def front(app: CoachApp) -> Screen[object]:
    """The screen in front, as it is by now."""
    return app.screen


async def held(pilot: Pilot[None], bench: BenchScreen, *lines: str) -> None:
    """Numbers held at the bench for no size, after which a size is chosen."""
    await pilot.press("up")
    await typed_at_once(pilot, bench, "".join(f"{line}\r" for line in lines))
    await pilot.press("down")
    await pilot.pause()


@pytest.mark.parametrize("typed", ["l 88", "2=88", "3=10.5", "le=88"])
@pytest.mark.parametrize("entered", [False, True], ids=["half typed", "and Enter"])
async def test_a_size_that_was_named_by_the_rows_of_a_step_is_not_entered_at_the_next(
    shop: Shop, tmp_path: Path, typed: str, entered: bool
) -> None:
    job = a_job(shop, TWO_STEPS)
    async with at_the_bench(shop, job) as (bench, pilot):
        await typed_at_once(pilot, bench, typed)
        end_elsewhere(job, tmp_path)
        if not entered:  # else another window was first, and this one has not looked yet
            bench.catch_up()
            await pilot.pause()
        await typed_at_once(pilot, bench, "\r")
        if entered:
            await typed_at_once(pilot, bench, "\r")
        assert bench.query_one(Input).value == typed, "it is back in the box"
        assert "is a size of step 1, which is not in hand any more" in answer_on(bench.coach)
    assert all(entry.kind != "reading" for entry in job.history())


async def test_a_named_size_is_entered_once_its_step_is_in_hand_again(shop: Shop, tmp_path: Path) -> None:
    job = a_job(shop, TWO_STEPS)
    async with at_the_bench(shop, job) as (bench, pilot):
        await typed_at_once(pilot, bench, "l 88")
        end_elsewhere(job, tmp_path)
        bench.catch_up()
        await typed_at_once(pilot, bench, "\r")
        await pilot.press("f5", "enter")
        await pilot.pause()
    assert read(job) == {"point.length": "88"}


async def test_a_named_size_goes_by_the_rows_that_were_looked_at_since(shop: Shop, tmp_path: Path) -> None:
    job = a_job(shop, TWO_STEPS)
    async with at_the_bench(shop, job) as (bench, pilot):
        await typed_at_once(pilot, bench, "2=122")
        end_elsewhere(job, tmp_path)
        bench.catch_up()
        await typed_at_once(pilot, bench, "\r")
        await pilot.press("down", "enter")
        await pilot.pause()
    assert read(job) == {"shank.length": "122"}


async def test_numbers_held_at_the_card_are_not_lost_under_those_that_come_after(shop: Shop) -> None:
    job = a_job(shop, BLOCK)
    job.heat()
    async with on_stage(shop, job) as (app, pilot):
        app.burst_s = 60.0
        burst(app, "8.1\r91\r11.9\r")
        for _ in range(3):
            await pilot.pause()
        card = app.screen
        assert isinstance(card, ResumeScreen)
        card.carry_on()
        await pilot.pause()
        bench = front(app)
        assert isinstance(bench, BenchScreen)
        await pilot.press("f2")
        await typed_at_once(pilot, bench, "8.4\r92\r12\r")
        await pilot.pause()
        assert read(job) == {"point.side": "8.4", "point.length": "92", "shank.side": "12"}
        assert bench.query_one(Input).value == "8.1"
        assert "2 more wait behind it" in answer_on(app)
        for after in ("91", "11.9", ""):
            await pilot.press("ctrl+u")
            await pilot.pause()
            assert bench.query_one(Input).value == after


async def test_a_held_number_is_entered_by_enter_at_the_size_that_stands_beside_it(shop: Shop) -> None:
    job = a_job(shop, BLOCK)
    async with at_the_bench(shop, job) as (bench, pilot):
        await held(pilot, bench, "8.1", "91", "11.9")
        for _ in range(3):
            await pilot.press("enter")
            await pilot.pause()
        assert bench.query_one(Input).value == ""
    assert read(job) == {"point.side": "8.1", "point.length": "91", "shank.side": "11.9"}


async def test_after_a_held_number_the_next_unread_size_is_asked_for(shop: Shop) -> None:
    job = a_job(shop, BLOCK)
    async with at_the_bench(shop, job) as (bench, pilot):
        await held(pilot, bench, "8.1", "91", "11.9")
        await pilot.press("enter")
        await pilot.pause()
        assert bench.query_one(Input).value == "91"
        assert "point length cold, by" in words_on(bench.coach)
        assert "Enter asks to end the step" not in words_on(bench.coach)
        answer = answer_on(bench.coach)
        assert "8.1" in answer, "what the one before it means is still told"
        assert "1 more waits behind it" in answer


async def test_enter_where_no_size_is_chosen_leaves_the_order_of_what_waits(shop: Shop) -> None:
    job = a_job(shop, BLOCK)
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("up")
        await typed_at_once(pilot, bench, "8.1\r91\r11.9\r")
        for _ in range(4):
            await pilot.press("enter")
            await pilot.pause()
            assert bench.query_one(Input).value == "8.1"
            assert "Choose with ↑ or ↓ which size this is. 2 more wait behind it." in answer_on(bench.coach)
    assert read(job) == {}


async def test_held_numbers_wait_in_their_order_though_sizes_are_read_elsewhere(
    shop: Shop, tmp_path: Path
) -> None:
    job = a_job(shop, BLOCK)
    async with at_the_bench(shop, job) as (bench, pilot):
        await held(pilot, bench, "11.9", "92", "12")
        with Shop(tmp_path / "shop.sqlite", clock()) as other:
            other.open(job.job).read("point.side", "8.1")
            other.open(job.job).read("point.length", "91")
        bench.catch_up()
        await pilot.press("down", "down", "enter")
        await pilot.pause()
        assert read(job) == {"point.side": "8.1", "point.length": "91", "shank.side": "11.9"}
        for _ in range(3):
            assert bench.query_one(Input).value == "92"
            assert "Choose with ↑ or ↓ which size this is. 1 more waits behind it." in answer_on(bench.coach)
            await pilot.press("enter")
            await pilot.pause()


async def test_a_held_number_can_be_mended_where_it_stands(shop: Shop) -> None:
    job = a_job(shop, BLOCK)
    async with at_the_bench(shop, job) as (bench, pilot):
        await held(pilot, bench, "8.2", "91")
        await pilot.press("backspace", "1", "enter")
        await pilot.pause()
        assert read(job) == {"point.side": "8.1"}
        assert bench.query_one(Input).value == "91"


@pytest.mark.parametrize("last", ["11.9", "11.9\n"])
async def test_pasted_lines_wait_their_turn_behind_a_held_number(shop: Shop, last: str) -> None:
    job = a_job(shop, BLOCK)
    async with at_the_bench(shop, job) as (bench, pilot):
        await held(pilot, bench, "8.3")
        bench.query_one(Input).post_message(events.Paste(f"91\n{last}"))
        for _ in range(4):
            await pilot.pause()
        assert read(job) == {}
        assert bench.query_one(Input).value == "8.3"
        assert "2 more numbers wait behind the one in the box: none is entered yet" in answer_on(bench.coach)
        for _ in range(3):
            await pilot.press("enter")
            await pilot.pause()
        assert bench.query_one(Input).value == ""
    assert read(job) == {"point.side": "8.3", "point.length": "91", "shank.side": "11.9"}


async def test_insisting_stands_by_the_questioned_reading_and_not_by_a_held_number(shop: Shop) -> None:
    job = a_job(shop, BLOCK)
    async with at_the_bench(shop, job) as (bench, pilot):
        await held(pilot, bench, "91", "11.9")
        await typed_at_once(pilot, bench, "81\r")
        assert "F12" in answer_on(bench.coach)
        await pilot.press("f12")
        await pilot.pause()
        assert bench.query_one(Input).value == "91"
    side = next(check for check in job.standing().checks if check.name == "point.side").reading
    assert side is not None
    assert side.typed == "81"
    assert not side.questioned


async def test_what_is_half_typed_is_typed_on_after_a_look_at_the_help(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (_, pilot):
        await pilot.press("8", "full_stop", "f1")
        await pilot.press("escape")
        await pilot.pause()
        await pilot.press("2", "enter")
        await pilot.pause()
    assert read(job) == {"point.side": "8.2"}


@pytest.mark.parametrize("typed", ["l 88", "2=88", "9 1/4 in"])
async def test_a_size_named_on_the_card_is_taken_along_as_it_was_typed(
    shop: Shop, job: Session, typed: str
) -> None:
    job.heat()
    async with on_stage(shop, job) as (app, pilot):
        keys = {" ": "space", "=": "equals_sign", "/": "slash"}
        for sign in typed:
            app.post_message(events.Key(keys.get(sign, sign), sign))
        await pilot.pause()
        await pilot.press("enter")
        await pilot.pause()
        assert app.screen.query_one(Input).value == typed
    assert read(job) == {}


async def test_lines_pasted_on_the_card_are_taken_along(shop: Shop) -> None:
    job = a_job(shop, BLOCK)
    job.heat()
    async with on_stage(shop, job) as (app, pilot):
        app.post_message(events.Paste("8.1\n91\n11.9"))
        for _ in range(3):
            await pilot.pause()
        await pilot.press("enter")
        await pilot.pause()
        assert app.screen.query_one(Input).value == "8.1"
        assert "2 more numbers wait behind the one in the box" in answer_on(app)
    assert read(job) == {}


async def test_the_card_waits_for_the_end_of_a_number_that_is_being_typed(shop: Shop, job: Session) -> None:
    job.heat()
    async with on_stage(shop, job) as (app, pilot):
        app.burst_s = 60.0
        burst(app, "8.1\r9")
        await pilot.pause()
        card = front(app)
        assert isinstance(card, ResumeScreen)
        card.quiet()
        await pilot.pause()
        assert "9: Enter takes it along" in answer_on(app)
        burst(app, "1\r")
        await pilot.pause()
        card.quiet()
        await pilot.pause()
        assert app.screen.query_one(Input).value == "8.1"
        assert "1 more number waits" in answer_on(app)


async def test_a_whole_name_is_entered_whichever_step_is_in_hand(shop: Shop, tmp_path: Path) -> None:
    job = a_job(shop, TWO_STEPS)
    async with at_the_bench(shop, job) as (bench, pilot):
        await typed_at_once(pilot, bench, "point length=88")
        end_elsewhere(job, tmp_path)
        bench.catch_up()
        await typed_at_once(pilot, bench, "\r")
        assert bench.query_one(Input).value == ""
    assert [entry.kind for entry in job.history()][-1] == "reading"


async def test_a_size_that_names_itself_is_read_with_the_gauge_that_was_chosen(
    shop: Shop, job: Session
) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("slash")
        assert answer_on(bench.coach) == "Sizes of this step are now read by rule."
        await typed_at_once(pilot, bench, "s 8\r")
    side = job.standing().checks[0].reading
    assert side is not None
    assert side.gauge == "rule"


async def test_leaving_the_card_asks_about_what_was_typed_there(shop: Shop, job: Session) -> None:
    job.heat()
    async with on_stage(shop, job) as (app, pilot):
        await pilot.press("8", "escape")
        await pilot.pause()
        assert isinstance(app.screen, ResumeScreen)
        assert "8 is not entered and would be lost: Esc leaves all the same." in answer_on(app)
        await pilot.press("escape")
        await pilot.pause()
        assert not isinstance(front(app), ResumeScreen)


async def test_after_a_half_typed_number_is_taken_back_enter_goes_on(shop: Shop, job: Session) -> None:
    job.heat()
    async with on_stage(shop, job) as (app, pilot):
        app.burst_s = 60.0
        burst(app, "8.1\r9")
        await pilot.pause()
        card = front(app)
        assert isinstance(card, ResumeScreen)
        card.quiet()
        await pilot.press("backspace", "enter")
        await pilot.pause()
        assert app.screen.query_one(Input).value == "8.1"


async def test_enter_that_came_before_the_terminal_was_ours_ends_a_number(shop: Shop) -> None:
    # Until then the terminal itself makes a line feed of Enter, which is Ctrl+J.
    job = a_job(shop, BLOCK)
    job.heat()
    async with on_stage(shop, job) as (app, pilot):
        app.burst_s = 60.0
        for line in ("8.1", "91"):
            burst(app, line, "ctrl+j")
        await pilot.pause()
        card = front(app)
        assert isinstance(card, ResumeScreen)
        card.quiet()
        await pilot.pause()
        bench = front(app)
        assert isinstance(bench, BenchScreen)
        assert bench.query_one(Input).value == "8.1"
        assert "1 more number waits" in answer_on(app)
        burst(app, "", "ctrl+j")
        await pilot.pause()
    assert read(job) == {"point.side": "8.1"}


async def test_what_waits_for_its_step_is_not_told_so_once_that_is_in_hand_again(
    shop: Shop, tmp_path: Path
) -> None:
    job = a_job(shop, TWO_STEPS)
    async with at_the_bench(shop, job) as (bench, pilot):
        await typed_at_once(pilot, bench, "l 88")
        end_elsewhere(job, tmp_path)
        bench.catch_up()
        await typed_at_once(pilot, bench, "\r92\r")
        await pilot.press("f5", "enter")
        await pilot.pause()
        assert bench.query_one(Input).value == "92"
        assert "not in hand any more" not in answer_on(bench.coach)
        assert "92 waits for Enter." in answer_on(bench.coach)
    assert read(job) == {"point.length": "88"}


@pytest.mark.parametrize("deed", ["note", "heat", "read", "resume and heat"])
async def test_enter_goes_on_from_the_card_though_another_window_was_first(
    shop: Shop, job: Session, tmp_path: Path, deed: str
) -> None:
    job.heat()
    job.rest()
    async with on_stage(shop, job) as (app, pilot):
        assert isinstance(app.screen, ResumeScreen)
        await pilot.press("8")
        with Shop(tmp_path / "shop.sqlite", clock()) as other:
            elsewhere = other.open(job.job)
            if deed == "note":
                elsewhere.note("tongs slip")
            elif deed == "read":
                elsewhere.resume()
                elsewhere.read("point.side", "9")
            else:
                elsewhere.resume()
                elsewhere.heat()
        await pilot.press("enter")
        await pilot.pause()
        bench = front(app)
        assert isinstance(bench, BenchScreen)
        assert bench.query_one(Input).value == "8"
        assert "Entered elsewhere:" in answer_on(app)
    kinds = [entry.kind for entry in job.history()]
    assert kinds.count("resumed") == 1


async def test_the_card_is_told_anew_once_something_is_entered_elsewhere(
    shop: Shop, job: Session, tmp_path: Path
) -> None:
    job.heat()
    async with on_stage(shop, job) as (app, pilot):
        card = app.screen
        assert isinstance(card, ResumeScreen)
        with Shop(tmp_path / "shop.sqlite", clock()) as other:
            other.open(job.job).note("the tongs slip")
        card.catch_up()
        await pilot.pause()
        assert "the tongs slip" in words_on(app)
        assert "Entered elsewhere: note: the tongs slip. Enter goes to the bench." in answer_on(app)


@pytest.mark.parametrize("typed", ["8.3", "8..1"])
async def test_what_was_said_of_a_number_goes_with_it(shop: Shop, typed: str) -> None:
    job = a_job(shop, BLOCK)
    async with at_the_bench(shop, job) as (bench, pilot):
        if typed == "8.3":
            await held(pilot, bench, "8.1", typed)
            await pilot.press("enter")
            await pilot.pause()
        else:
            await typed_at_once(pilot, bench, f"{typed}\r")
        assert bench.query_one(Input).value == typed
        assert answer_on(bench.coach)
        await pilot.press("ctrl+u")
        await pilot.pause()
        assert not answer_on(bench.coach)


@pytest.mark.parametrize(
    ("typed", "stands"),
    [("cherry", "cherry"), ("pass", "pass"), (" red", "red"), ("cm", "9999999cm"), ("mm", "9999999mm")],
)
async def test_a_word_typed_upon_a_refused_number_takes_its_place_and_a_unit_mends_it(
    shop: Shop, job: Session, typed: str, stands: str
) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press(*"9999999", "enter")  # no size is as long as that
        await settled(bench.coach, pilot)
        assert bench.query_one(Input).value == "9999999"
        await pilot.press(*("space" if key == " " else key for key in typed))
        await pilot.pause()
        assert bench.query_one(Input).value == stands


async def test_a_number_where_a_step_asks_for_no_size_is_not_told_to_choose_among_them(shop: Shop) -> None:
    chisel = at_step_of("cold-chisel", 7)  # the annealing, which has nothing to check
    assert not chisel.standing().checks
    async with at_the_bench(shop, chisel) as (bench, pilot):
        await pilot.press(*"56", "enter")
        await settled(bench.coach, pilot)
        assert bench.query_one(Input).value == "56"
        assert "This step asks for no size" in answer_on(bench.coach)
        assert "Choose with" not in words_on(bench.coach)
        await pilot.press("ctrl+u", *"1=2.9", "enter")
        await settled(bench.coach, pilot)
        assert "This step asks for no size, and so none has the number 1." in answer_on(bench.coach)


async def test_a_number_of_no_size_is_told_as_of_the_step_it_was_typed_at_once_that_is_done(
    shop: Shop,
) -> None:
    """It went on unsaid into the next step, whose own numbers then queued up behind it."""
    job = a_job(shop, TWO_STEPS)
    job.heat()
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("up", *"91", "enter", "f4", "f4")
        await settled(bench.coach, pilot)
        assert "91 was typed at step 1, which is not in hand" in answer_on(bench.coach)
        assert "Ctrl+U strikes it" in answer_on(bench.coach)
        assert "sizes settled" not in words_on(bench.coach)
        await pilot.press(*"10.1", "enter")
        await settled(bench.coach, pilot)
        assert read(job) == {"shank.side": "10.1"}
        assert bench.query_one(Input).value == "91"
        assert "91 was typed at step 1" in answer_on(bench.coach)
        await pilot.press(*"119", "enter", "ctrl+u")
        await settled(bench.coach, pilot)
        assert bench.query_one(Input).value == ""
    assert read(job)["shank.length"] == "119"
    assert "91" not in read(job).values()


async def test_undo_takes_a_refused_number_back_and_leaves_the_last_entry(shop: Shop) -> None:
    """It struck out the end of the step before, which nobody had in mind with a slip in the box."""
    job = a_job(shop, TWO_STEPS)
    job.heat()
    job.done()
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press(*"8..1", "enter")
        await settled(bench.coach, pilot)
        assert bench.query_one(Input).value == "8..1"
        before = len(job.history())
        await pilot.press("f8")
        await settled(bench.coach, pilot)
        assert bench.query_one(Input).value == ""
        assert "8..1 was not entered, and is taken back." in answer_on(bench.coach)
        assert len(job.history()) == before
        assert "▸ side" in words_on(bench.coach)
        await pilot.press("f8")
        await settled(bench.coach, pilot)
        assert len(job.history()) == before + 1


async def test_a_size_of_a_step_ahead_is_told_so(shop: Shop) -> None:
    job = a_job(shop, TWO_STEPS)
    job.heat()
    job.done()
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press(*"2=129", "f5")
        await settled(bench.coach, pilot)
        await pilot.press("enter")
        await settled(bench.coach, pilot)
        assert "is a size of step 2, which is still ahead" in answer_on(bench.coach)
        assert "F5 goes back to it" not in answer_on(bench.coach)
