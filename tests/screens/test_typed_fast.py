"""What is typed faster than the coach reckons arrives, in its order, at the sizes that were shown."""

from __future__ import annotations

from pathlib import Path

import pytest
from textual import events
from textual.pilot import Pilot
from textual.widgets import Input

from coach.bench.session import Session
from coach.bench.shop import Shop
from coach.screens.app import CoachApp
from coach.screens.bench import BenchScreen
from coach.screens.remedies import RemediesScreen
from coach.screens.resume import ResumeScreen
from tests.screens.stage import PEG, a_job, answer_on, at_the_bench, clock, on_stage, showing, words_on

#: A step that asks for three sizes at once, as a calliper sends them.
BLOCK = PEG.replace("check: side, length", "check: side, length, shank.side")
_KEYS = {"\t": "tab", "\r": "enter", " ": "space", ".": "full_stop", "-": "minus"}


def burst(app: CoachApp, typed: str, *then: str) -> None:
    """Every key at once, before any of them is looked at: as a gauge types, or a hand ahead of the screen."""
    for sign in typed:
        app.post_message(events.Key(_KEYS.get(sign, sign), sign))
    for key in then:
        app.post_message(events.Key(key, None))


async def typed_at_once(pilot: Pilot[None], bench: BenchScreen, typed: str, *then: str) -> None:
    burst(bench.coach, typed, *then)
    for _ in range(4):
        await pilot.pause()


def read(job: Session) -> dict[str, str]:
    """What stands as read of each size of the step in hand, as it was typed."""
    checks = job.standing().checks
    return {check.name: check.reading.typed for check in checks if check.reading is not None}


async def test_three_sizes_in_one_burst_go_to_three_sizes(shop: Shop) -> None:
    job = a_job(shop, BLOCK)
    async with at_the_bench(shop, job) as (bench, pilot):
        await typed_at_once(pilot, bench, "8.1\r91\r11.9\r")
        assert bench.query_one(Input).value == ""
    assert read(job) == {"point.side": "8.1", "point.length": "91", "shank.side": "11.9"}


async def test_what_follows_enter_is_another_number(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await typed_at_once(pilot, bench, "8.2\r9")
        assert bench.query_one(Input).value == "9"
        assert "point length cold, by" in words_on(bench.coach)
    assert read(job) == {"point.side": "8.2"}


async def test_one_refused_in_a_burst_comes_back_to_its_own_size_and_the_others_arrive(shop: Shop) -> None:
    job = a_job(shop, BLOCK)
    async with at_the_bench(shop, job) as (bench, pilot):
        await typed_at_once(pilot, bench, "8..1\r91\r11.9\r")
        assert bench.query_one(Input).value == "8..1"
        assert answer_on(bench.coach).startswith("! point side: ")
        assert "point side cold, by" in words_on(bench.coach)
    assert read(job) == {"point.length": "91", "shank.side": "11.9"}


async def test_what_was_refused_waits_while_another_number_is_being_typed(shop: Shop) -> None:
    job = a_job(shop, BLOCK)
    async with at_the_bench(shop, job) as (bench, pilot):
        await typed_at_once(pilot, bench, "8..1\r9")
        assert bench.query_one(Input).value == "9"
        assert answer_on(bench.coach).startswith("! point side: ")
        await typed_at_once(pilot, bench, "1\r")
        assert bench.query_one(Input).value == "8..1"
    assert read(job) == {"point.length": "91"}


async def test_a_number_typed_upon_a_refused_one_takes_its_place_and_its_size(shop: Shop) -> None:
    job = a_job(shop, BLOCK)
    async with at_the_bench(shop, job) as (bench, pilot):
        await typed_at_once(pilot, bench, "8..1\r")
        assert bench.query_one(Input).value == "8..1"
        await typed_at_once(pilot, bench, "8.2\r")
        assert bench.query_one(Input).value == ""
    assert read(job) == {"point.side": "8.2"}


@pytest.mark.parametrize("sent", [".82 cm\r", ",82 cm\r"])
@pytest.mark.parametrize("refused", ["3o", "8..1"])
async def test_a_number_that_begins_with_its_point_takes_a_refused_ones_place(
    shop: Shop, refused: str, sent: str
) -> None:
    job = a_job(shop, BLOCK)
    async with at_the_bench(shop, job) as (bench, pilot):
        await typed_at_once(pilot, bench, f"{refused}\r")
        await typed_at_once(pilot, bench, sent)
        assert bench.query_one(Input).value == ""
    assert read(job) == {"point.side": sent.strip()}


async def test_a_refused_number_can_be_mended_where_it_stands(shop: Shop) -> None:
    job = a_job(shop, BLOCK)
    async with at_the_bench(shop, job) as (bench, pilot):
        await typed_at_once(pilot, bench, "8..1\r")
        await pilot.press("backspace", "backspace", "3", "enter")
        await pilot.pause()
    assert read(job) == {"point.side": "8.3"}


async def test_a_size_is_typed_by_its_name_whichever_is_asked_for(shop: Shop) -> None:
    job = a_job(shop, BLOCK)
    async with at_the_bench(shop, job) as (bench, pilot):
        await typed_at_once(pilot, bench, "point length=91\r8.2\r")
    assert read(job) == {"point.length": "91", "point.side": "8.2"}


async def test_a_questioned_reading_does_not_take_the_ones_behind_it(shop: Shop) -> None:
    job = a_job(shop, BLOCK)
    async with at_the_bench(shop, job) as (bench, pilot):
        await typed_at_once(pilot, bench, "81\r91\r11.9\r")
        assert "point side cold, by" in words_on(bench.coach), "the questioned one is asked for again"
    assert read(job) == {"point.side": "81", "point.length": "91", "shank.side": "11.9"}


async def test_a_key_pressed_behind_a_number_comes_behind_it(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await typed_at_once(pilot, bench, "8.1\r", "f2")
    kinds = [entry.kind for entry in job.history()]
    assert kinds == ["began", "reading", "heat"]


async def test_a_note_typed_at_once_is_a_note(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        bench.coach.post_message(events.Key("f6", None))
        await typed_at_once(pilot, bench, "the tongs slip\r")
    assert [note.text for note in job.standing().notes] == ["the tongs slip"]
    assert read(job) == {}


async def test_a_sign_before_a_number_leaves_the_number(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await typed_at_once(pilot, bench, "-8.2\r")
    reading = job.standing().checks[0].reading
    assert reading is not None
    assert reading.typed == "8.2"
    assert reading.hot is not None, "minus says that the metal is hot"


async def test_pasted_lines_count_as_typed(shop: Shop) -> None:
    job = a_job(shop, BLOCK)
    async with at_the_bench(shop, job) as (bench, pilot):
        bench.query_one(Input).post_message(events.Paste("8.1\r\n91\n11."))
        for _ in range(4):
            await pilot.pause()
        assert bench.query_one(Input).value == "11."
        await typed_at_once(pilot, bench, "9\r")
    assert read(job) == {"point.side": "8.1", "point.length": "91", "shank.side": "11.9"}


async def test_a_whole_file_pasted_by_mistake_enters_nothing(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        bench.query_one(Input).post_message(events.Paste("8.1\n" * 500))
        for _ in range(4):
            await pilot.pause()
        assert "500 lines" in answer_on(bench.coach)
    assert job.standing().last_entry == 1


@pytest.mark.parametrize("standing_in_the_box", ["9", "8.9"])
async def test_the_size_asked_for_does_not_change_under_what_is_being_typed(
    shop: Shop, job: Session, tmp_path: Path, standing_in_the_box: str
) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press(*("full_stop" if sign == "." else sign for sign in standing_in_the_box))
        with Shop(tmp_path / "shop.sqlite", clock()) as other:
            other.open(job.job).read("point.side", "8.1")
        bench.catch_up()
        await pilot.pause()
        assert "point side cold, by" in words_on(bench.coach)
        assert "Entered elsewhere" in answer_on(bench.coach)
        await pilot.press("enter")
        await pilot.pause()
    side = next(check for check in job.standing().checks if check.name == "point.side").reading
    assert side is not None
    assert side.typed == standing_in_the_box


async def test_a_number_whose_step_was_finished_elsewhere_is_kept_and_told(
    shop: Shop, job: Session, tmp_path: Path
) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("8")
        with Shop(tmp_path / "shop.sqlite", clock()) as other:
            other.open(job.job).done()
        bench.catch_up()
        await pilot.pause()
        assert "point side cold, by" in words_on(bench.coach)
        await pilot.press("enter")
        await pilot.pause()
        assert bench.query_one(Input).value == "8"
        assert "step 1" in answer_on(bench.coach)
        assert showing(bench.app) is BenchScreen
    assert all(entry.kind != "reading" for entry in job.history())


async def test_numbers_typed_where_no_size_is_asked_for_are_all_held(shop: Shop) -> None:
    job = a_job(shop, BLOCK)
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("up")
        await typed_at_once(pilot, bench, "8.1\r91\r11.9\r")
        assert bench.query_one(Input).value == "8.1"
        assert "2 more wait behind it" in answer_on(bench.coach)
        await pilot.press("down", "enter")
        await pilot.pause()
        assert bench.query_one(Input).value == "91"
    assert read(job) == {"point.side": "8.1"}


@pytest.mark.parametrize("leaves", [["escape"], []])
async def test_a_step_that_is_not_to_end_asks_again_for_what_it_still_wants(
    shop: Shop, job: Session, leaves: list[str]
) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("1", "1", "enter", "enter")
        await pilot.pause()
        assert answer_on(bench.coach).endswith("Esc goes on.")
        await pilot.press(*leaves)
        await typed_at_once(pilot, bench, "91\r10\r")
    assert read(job) == {"point.length": "91", "point.side": "10"}


async def test_a_number_held_for_no_size_gets_one_as_a_heat_asks_for_them_again(
    shop: Shop, job: Session
) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("up")
        await typed_at_once(pilot, bench, "9.1\r")
        await pilot.press("f2")
        await pilot.pause()
        assert bench.query_one(Input).value == "9.1"
        assert "point side cold, by" in words_on(bench.coach)
        await pilot.press("enter")
        await pilot.pause()
    assert read(job) == {"point.side": "9.1"}


async def test_a_star_over_what_was_refused_shows_the_ways_back_and_leaves_it(
    shop: Shop, job: Session
) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await typed_at_once(pilot, bench, "8..1\r", "asterisk")
        assert showing(bench.app) is RemediesScreen
        assert bench.query_one(Input).value == "8..1"


async def test_a_number_right_behind_a_note_is_a_size(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        bench.coach.post_message(events.Key("f6", None))
        await typed_at_once(pilot, bench, "late\r8.1\r")
    assert [note.text for note in job.standing().notes] == ["late"]
    assert read(job) == {"point.side": "8.1"}


async def test_what_a_gauge_types_at_the_summary_is_carried_to_the_bench_and_not_entered(
    shop: Shop, job: Session
) -> None:
    job.heat()
    async with on_stage(shop, job) as (app, pilot):
        app.burst_s = 60.0
        burst(app, "8.1\r91\r5")
        for _ in range(3):
            await pilot.pause()
        assert isinstance(app.screen, ResumeScreen)
        app.screen.carry_on()
        await pilot.pause()
        assert app.screen.query_one(Input).value == "8.1"
        assert "2 more numbers wait behind the one in the box" in answer_on(app)
        for held in ("91", "5"):
            await pilot.press("ctrl+u")
            await pilot.pause()
            assert app.screen.query_one(Input).value == held
    assert read(job) == {}


@pytest.mark.parametrize("place", ["f9", "f10"])
async def test_a_number_typed_where_there_is_no_box_does_nothing(
    shop: Shop, job: Session, place: str
) -> None:
    job.read("point.side", "8.1")
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press(place)
        await pilot.pause()
        await typed_at_once(pilot, bench, "8.4\r")
        assert "Sizes are typed at the bench" in words_on(bench.coach)
    assert [entry.kind for entry in job.history()] == ["began", "reading"]


async def test_a_named_size_that_was_refused_is_typed_anew_upon_itself(shop: Shop) -> None:
    job = a_job(shop, BLOCK)
    async with at_the_bench(shop, job) as (bench, pilot):
        await typed_at_once(pilot, bench, "pint length=91\r")
        assert bench.query_one(Input).value == "pint length=91"
        await typed_at_once(pilot, bench, "point length=91\r")
    assert read(job) == {"point.length": "91"}


@pytest.mark.parametrize("before", ["\r", "8.2\r"])
async def test_a_note_typed_ahead_of_the_bench_is_entered(shop: Shop, job: Session, before: str) -> None:
    job.note("thin")
    async with on_stage(shop, job) as (app, pilot):
        burst(app, before, "f6")
        burst(app, "3 mm off\r")
        for _ in range(6):
            await pilot.pause()
        assert showing(app) is BenchScreen
        assert app.screen.query_one(Input).value in ("", before.strip())
    assert [note.text for note in job.standing().notes] == ["thin", "3 mm off"]


@pytest.mark.parametrize("under_way", [False, True])
@pytest.mark.parametrize(
    ("first", "typed", "entered"),
    [("f6", "3 mm off\r", ["note"]), ("f2", "8.2\r", ["heat", "reading"]), ("f3", "", ["fire"])],
)
async def test_what_is_typed_ahead_of_the_bench_in_the_shop_is_entered(
    shop: Shop, job: Session, under_way: bool, first: str, typed: str, entered: list[str]
) -> None:
    if under_way:
        job.note("thin")
    before = len(job.history())
    async with on_stage(shop) as (app, pilot):
        burst(app, "\r", first)
        burst(app, typed)
        for _ in range(8):
            await pilot.pause()
        assert showing(app) is BenchScreen
        assert app.screen.query_one(Input).value == ""
    assert [entry.kind for entry in shop.open(job.job).history()][before:] == entered


@pytest.mark.parametrize("under_way", [False, True])
async def test_what_is_pasted_ahead_of_the_bench_in_the_shop_is_there(
    shop: Shop, job: Session, under_way: bool
) -> None:
    if under_way:
        job.note("thin")
    async with on_stage(shop) as (app, pilot):
        burst(app, "\r")
        app.post_message(events.Paste("8.2"))
        burst(app, "\r" if under_way else "")
        for _ in range(8):
            await pilot.pause()
        assert showing(app) is BenchScreen
        assert app.screen.query_one(Input).value == "8.2"


@pytest.mark.parametrize("pressed", ["f5", "f8", "f12"])
async def test_nothing_unseen_is_taken_back_from_the_card(shop: Shop, job: Session, pressed: str) -> None:
    job.note("thin")
    async with on_stage(shop, job) as (app, pilot):
        await pilot.press(pressed)
        assert showing(app) is ResumeScreen
        assert answer_on(app) == f"! {pressed.upper()} is a key of the bench. Enter goes there."
    assert [note.text for note in job.standing().notes] == ["thin"]
