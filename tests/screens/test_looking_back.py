"""The log shows how the spare has gone, and takes what a reading really was."""

from __future__ import annotations

from textual import events
from textual.widgets import Input

from coach.bench.session import Session
from coach.bench.shop import Shop
from coach.screens.bench import BenchScreen
from coach.screens.history import HistoryScreen
from coach.screens.picture import PictureScreen
from tests.screens.stage import answer_on, at_the_bench, settled, showing, words_on
from tests.screens.test_golden_screens import under_way
from tests.told import entry_text


async def test_tab_shows_the_spare_over_the_heats_and_back(shop: Shop, job: Session) -> None:
    under_way(job)
    async with at_the_bench(shop, job, size=(120, 40)) as (bench, pilot):
        await pilot.press("f9", "tab")
        await pilot.app.workers.wait_for_complete()
        await pilot.pause()
        assert "Spare in the shank length, over the heats" in words_on(bench.coach)
        assert "after 3 heats" in answer_on(bench.coach)
        await pilot.press("right")
        await pilot.pause()
        assert "Spare in the point length" in words_on(bench.coach)
        await pilot.press("escape")
        await pilot.pause()
        assert showing(bench.app) is HistoryScreen
        assert "point side" in words_on(bench.coach)
        await pilot.press("escape")
        await pilot.pause()
        assert showing(bench.app) is BenchScreen


async def test_a_reading_is_corrected_where_it_stands(shop: Shop, job: Session) -> None:
    under_way(job)
    at = next(entry.number for entry in job.history() if entry.kind == "reading")
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("f9")
        await pilot.pause()
        await pilot.press(*["up"] * (len(job.history()) - at))
        await pilot.press("c")
        await pilot.pause()
        assert "Type what it really was" in answer_on(bench.coach)
        bench.app.screen.query_one(Input).value = "8,1"
        await pilot.press("enter")
        await pilot.pause()
        assert f"Entry {at} is now point side 8.1 mm" in answer_on(bench.coach)
        assert showing(bench.app) is HistoryScreen
    assert entry_text(job.history()[-1]) == f"entry {at} corrected to 8,1"


async def test_only_readings_are_corrected_and_esc_leaves_it(shop: Shop, job: Session) -> None:
    under_way(job)
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("f9", "c")
        await pilot.pause()
        assert "only readings can be corrected" in answer_on(bench.coach)
        at = max(entry.number for entry in job.history() if entry.kind == "reading")
        await pilot.press(*["up"] * (len(job.history()) - at), "c", "9", "escape")
        await pilot.pause()
        assert "stays as it was" in answer_on(bench.coach)
        assert showing(bench.app) is HistoryScreen


async def test_enter_still_strikes_an_entry_out(shop: Shop, job: Session) -> None:
    under_way(job)
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("f9", "enter")
        await pilot.pause()
        assert job.history()[-1].kind == "struck"
        assert "Struck out" in answer_on(bench.coach)


async def test_the_pictures_go_from_the_step_to_the_stock_and_the_tool(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job, size=(100, 30)) as (bench, pilot):
        await pilot.press("ctrl+d")
        await pilot.pause()
        assert showing(bench.app) is PictureScreen
        told = []
        for _ in range(3):
            told.append(answer_on(bench.coach))
            assert "mm" in words_on(bench.coach)
            await pilot.press("down")
            await pilot.pause()
        assert ["at this step" in told[0], "its stock" in told[1], "finished tool" in told[2]] == [True] * 3
        await pilot.press("escape")
        await pilot.pause()
        assert showing(bench.app) is BenchScreen


async def test_the_picture_follows_a_reading(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job, size=(160, 48)) as (bench, pilot):
        await settled(bench.coach, pilot)
        before = words_on(bench.coach)
        await pilot.press("f2", "1", "0", "full_stop", "5", "enter")
        await pilot.pause()
        assert "The bar" in before or "The peg" in before
        assert words_on(bench.coach) != before


async def test_a_paper_note_is_entered_at_the_step_of_the_chosen_entry(shop: Shop, job: Session) -> None:
    under_way(job)
    job.done()
    first = next(entry for entry in job.history() if entry.kind == "reading")
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("f9")
        await pilot.pause()
        await pilot.press(*["up"] * (len(job.history()) - first.number))
        await pilot.press("p")
        await pilot.pause()
        assert f"Of step {first.step}" in answer_on(bench.coach)
        bench.app.screen.query_one(Input).value = "length=88"
        await pilot.press("enter")
        await pilot.pause()
        assert "point length 88 mm" in answer_on(bench.coach)
    read = job.history()[-1].reading
    assert read is not None
    assert read.late_for == first.step


async def test_once_a_step_is_done_and_nothing_entered_since_paper_is_of_the_step_in_hand(
    shop: Shop, job: Session
) -> None:
    under_way(job)
    job.done()
    step = job.standing().step
    assert step is not None
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("f9", "p")
        await pilot.pause()
        assert f"Of step {step.number}, " in answer_on(bench.coach)
        bench.app.screen.query_one(Input).value = "heat"
        await pilot.press("enter")
        await pilot.pause()
    assert job.standing().heats == 1


async def test_a_heat_from_a_paper_note_goes_to_the_step_of_the_chosen_entry(
    shop: Shop, job: Session
) -> None:
    under_way(job)
    first = next(entry for entry in job.history() if entry.kind == "reading")
    job.done()
    heats = job.standing().heats_total
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("f9")
        await pilot.pause()
        await pilot.press(*["up"] * (len(job.history()) - first.number))
        await pilot.press("p")
        await pilot.pause()
        bench.app.screen.query_one(Input).value = "heat"
        await pilot.press("enter")
        await pilot.pause()
        assert f"A heat of step {first.step}" in answer_on(bench.coach)
    assert job.history()[-1].kind == "late heat"
    assert job.standing().heats_total == heats + 1


async def test_the_hours_of_a_day_from_paper_are_told_where_its_notes_are(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("f9", "p")
        await pilot.pause()
        for typed in ("begun at 2000-01-03 9:00", "done at 2000-01-03 9:40"):
            bench.app.screen.query_one(Input).value = typed
            await pilot.press("enter")
            await pilot.pause()
            if showing(bench.app) is HistoryScreen and not bench.app.screen.query_one(Input).display:
                await pilot.press("p")
                await pilot.pause()
    assert [one.kind for one in job.history()[-2:]] == ["begun before", "late done"]
    assert job.sheet().heats.steps[0].worked.value == 40 * 60.0


async def test_the_notes_of_a_day_are_typed_one_after_another_and_go_on_with_the_next_step(
    shop: Shop, job: Session
) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("f9", "p")
        await pilot.pause()
        for typed in ("begun at 2000-01-03 9:00", "done at 2000-01-03 9:40", "heat at 2000-01-03 9:50"):
            bench.app.screen.query_one(Input).value = typed
            await pilot.press("enter")
            await pilot.pause()
        assert bench.app.screen.query_one(Input).display
        await pilot.press("escape")
        await pilot.pause()
        assert not bench.app.screen.query_one(Input).display
    assert [one.kind for one in job.history()[-2:]] == ["late done", "late heat"]
    assert job.history()[-1].step == 2
    assert job.standing().heats == 1


async def test_a_trip_to_the_fire_is_one_line_of_paper(shop: Shop, job: Session) -> None:
    lines = (
        "begun at 2000-01-03 8:00",
        "done at 2000-01-03 8:30",
        "fire 2000-01-03 8:40, out 2000-01-03 8:52",
    )
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("f9", "p")
        await pilot.pause()
        for typed in (*lines, "fire at 2000-01-03 8:55", "out 2000-01-03 9:05"):
            bench.app.screen.query_one(Input).value = typed
            await pilot.press("enter")
            await pilot.pause()
    assert [one.kind for one in job.history()[-4:]] == ["late fire", "late heat", "late fire", "late heat"]
    assert job.standing().heats == 2


async def test_notes_that_are_pasted_are_each_entered_up_to_the_one_that_is_refused(
    shop: Shop, job: Session
) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("f9", "p")
        await pilot.pause()
        box = bench.app.screen.query_one(Input)
        box.post_message(
            events.Paste("begun at 2000-01-03 9:00\n\ndone at 2000-01-03 9:40\nnonsense\nheat\n")
        )
        await pilot.pause()
        await pilot.pause()
        assert box.value == "nonsense"
        assert "Of 4 lines 2 are entered." in answer_on(bench.coach)
    assert [one.kind for one in job.history()[-2:]] == ["begun before", "late done"]


async def test_a_paper_note_that_cannot_be_read_says_how_it_is_written(shop: Shop, job: Session) -> None:
    under_way(job)
    entries = len(job.history())
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("f9", "p")
        await pilot.pause()
        for typed, told in (("88", "Write the size, ="), ("length=88 at 25:00", "25:00")):
            bench.app.screen.query_one(Input).value = typed
            await pilot.press("enter")
            await pilot.pause()
            assert told in answer_on(bench.coach)
        await pilot.press("escape")
        await pilot.pause()
        assert showing(bench.app) is HistoryScreen
    assert len(job.history()) == entries


async def test_of_a_long_job_it_says_what_it_shows_and_shows_the_rest_when_asked(
    shop: Shop, job: Session
) -> None:
    for _ in range(40):
        job.heat()
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("f9", "tab")
        await bench.app.workers.wait_for_complete()
        await pilot.pause()
        assert "Left out are 25 heats or steps: Enter shows them." in answer_on(bench.coach)
        await pilot.press("enter")
        await bench.app.workers.wait_for_complete()
        await pilot.pause()
        assert answer_on(bench.coach).endswith("Left and right show the other zones.")
