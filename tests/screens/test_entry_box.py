"""The box takes sizes, notes and things to put right; a gauge that fires twice counts once."""

from __future__ import annotations

import pytest
from textual import events
from textual.widgets import Input

from coach.bench.session import Session
from coach.bench.shop import Shop
from coach.screens.app import CoachApp
from coach.screens.bench import BenchScreen
from coach.screens.rights import RightsScreen
from coach.screens.widgets.entry_box import EntryBox
from tests.screens.stage import a_job, answer_on, at_the_bench, settled, showing, words_on
from tests.told import entry_text


class Hand:
    """A stopwatch that the test puts forward."""

    def __init__(self) -> None:
        self.at = 0.0

    def __call__(self) -> float:
        return self.at


def readings(job: Session) -> list[str]:
    return [entry_text(entry) for entry in job.history() if entry.kind == "reading"]


async def test_a_gauge_that_fires_twice_counts_once_and_says_so(shop: Shop, job: Session) -> None:
    hand = Hand()
    app = CoachApp(shop, session=job, now=lambda: "2026-03-02T12:00:00Z", stopwatch=hand)
    app.animation_level = "none"
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        if showing(app) is not BenchScreen:
            await pilot.press("enter")
            await pilot.pause()
        for seconds in (0.0, 0.2):
            hand.at = seconds
            app.screen.query_one(Input).value = "8,52"
            await pilot.press("enter")
            await pilot.pause()
        assert len(readings(job)) == 1
        assert "came twice at once" in answer_on(app)
        hand.at = 3.0
        app.screen.query_one(Input).value = "8,52"
        await pilot.press("enter")
        await pilot.pause()
        assert len(readings(job)) == 2, "a hand is slower, and may mean it"


def good_but_for_one(job: Session) -> None:
    job.heat()
    job.heat()
    job.read("point.length", "90")


@pytest.mark.parametrize(
    ("later_s", "ended"), [(0.0, False), (0.1, False), (0.6, False), (0.9, True), (3.0, True)]
)
async def test_an_enter_that_is_meant_for_itself_ends_a_step_where_all_is_good(
    shop: Shop, job: Session, later_s: float, ended: bool
) -> None:
    good_but_for_one(job)
    async with at_the_bench(shop, job) as (bench, pilot):
        bench.coach.stopwatch = hand = Hand()
        hand.at = 100.0
        await pilot.press("8", "enter")
        await pilot.pause()
        hand.at += later_s
        await pilot.press("enter")
        await pilot.pause()
        assert ("2/3 Draw the shank" in words_on(bench.coach)) is ended
        assert answer_on(bench.coach).startswith("?") is not ended


async def test_enter_held_down_at_the_last_reading_ends_no_step(shop: Shop, job: Session) -> None:
    good_but_for_one(job)
    async with at_the_bench(shop, job) as (bench, pilot):
        bench.coach.stopwatch = hand = Hand()
        hand.at = 100.0
        await pilot.press("8", "enter")
        hand.at += 0.6
        for _ in range(40):
            await pilot.press("enter")
            hand.at += 0.03
        await pilot.pause()
        assert "1/3 Draw the point" in words_on(bench.coach)
        hand.at += 1.0
        await pilot.press("enter")
        await pilot.pause()
        assert "2/3 Draw the shank" in words_on(bench.coach)


async def test_the_gauge_key_is_remembered_and_told(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("slash")
        assert "by rule" in answer_on(bench.coach)
        assert "cold, by rule" in words_on(bench.coach)
        await pilot.press("8", "enter")
        assert "by rule" in readings(job)[-1]
        for _ in range(4):
            await pilot.press("slash")
        assert "the gauge that the step names, by calliper" in answer_on(bench.coach)


async def test_minus_says_hot_and_cold(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("minus")
        assert "HOT" in words_on(bench.coach)
        await pilot.press("minus")
        assert "HOT" not in words_on(bench.coach)


async def test_the_note_key_pressed_twice_writes_something_to_put_right(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("f6", "f6")
        bench.query_one(Input).value = "point: a lap near the tip"
        await pilot.press("enter")
        await pilot.pause()
        assert "On the list to put right of the point" in answer_on(bench.coach)
        await pilot.press("plus")
        await pilot.pause()
        assert showing(bench.app) is RightsScreen
        assert "point: a lap near the tip" in words_on(bench.coach)
        await pilot.press("enter")
        await pilot.pause()
        assert "Put right" in answer_on(bench.coach)
        await pilot.press("escape")
        await pilot.pause()
        assert job.standing().to_right == ()


async def test_what_was_half_typed_of_one_kind_waits_for_its_turn(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("8", "full_stop", "f6")
        assert bench.query_one(Input).value == ""
        await pilot.press("a", "escape")
        assert bench.query_one(Input).value == "8."
        await pilot.press("f6")
        assert bench.query_one(Input).value == "a"


async def test_signs_within_a_note_are_letters_like_any_other(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("f6", "plus")
        assert bench.query_one(Input).value == "+"
        assert showing(bench.app) is BenchScreen


async def test_minus_behind_a_number_says_hot_and_leaves_the_number(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press(*"8.1", "minus")
        assert "HOT" in words_on(bench.coach)
        assert bench.query_one(EntryBox).value == "8.1"
        await pilot.press("enter")
        reading = job.standing().checks[0].reading
        assert reading is not None
        assert reading.hot is not None


async def test_the_gauge_key_goes_on_at_once_from_the_gauge_that_the_step_names(
    shop: Shop, job: Session
) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        assert "by calliper" in words_on(bench.coach)
        await pilot.press("slash")
        assert answer_on(bench.coach) == "Sizes of this step are now read by rule."


async def test_a_gauge_is_chosen_for_the_step_in_hand_and_no_other_job_is_read_with_it(
    shop: Shop, job: Session
) -> None:
    """A reading by calliper that the log calls one by rule is doubted three times too much, and silently."""
    other = a_job(shop)
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("slash")
        assert "cold, by rule instead of calliper" in words_on(bench.coach)
        bench.coach.show_job(other)
        await pilot.pause()
        assert "cold, by calliper" in words_on(bench.coach)
        await pilot.press(*"8.1", "enter")
        await pilot.pause()
        assert readings(other)[-1].endswith("8.1 mm by calliper")
        bench.coach.go("bench", job)
        await pilot.pause()
        assert "cold, by rule instead of calliper" in words_on(bench.coach)  # as it was chosen there
        await pilot.press("f4", "f4")
        await settled(bench.coach, pilot)
        assert "By the step's own gauge again." in words_on(bench.coach)
        assert "2/3 Draw the shank" in words_on(bench.coach)
        assert "cold, by calliper" in words_on(bench.coach)


async def test_what_was_said_of_one_size_goes_when_another_is_chosen(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("slash")
        assert answer_on(bench.coach)
        await pilot.press("down")
        assert not answer_on(bench.coach)


async def test_while_a_note_is_written_nothing_is_said_of_the_gauge(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        assert "the gauge reads" in answer_on(bench.coach)
        await pilot.press("f6")
        assert not answer_on(bench.coach)


async def test_where_sizes_are_unread_the_box_says_as_the_face_does_that_enter_asks(
    shop: Shop, job: Session
) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("up")
        assert "Enter asks to end the step" in words_on(bench.coach)
        assert "Enter finishes the step" not in words_on(bench.coach)


async def test_lines_pasted_into_a_note_are_one_note(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("f6")
        bench.query_one(Input).post_message(events.Paste("the point ran wide,\n  dressed it\r\n\r\ncold"))
        await pilot.pause()
        await pilot.press("enter")
        await pilot.pause()
        await pilot.press("f6")
        bench.query_one(Input).post_message(events.Paste("one\ntwo\n"))
        await pilot.pause()
    notes = [entry_text(one) for one in job.history()[-2:]]
    assert [note.removeprefix("note: ") for note in notes] == [
        "the point ran wide, dressed it cold",
        "one two",
    ]
