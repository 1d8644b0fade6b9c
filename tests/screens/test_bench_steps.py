"""Heats, finished steps, notes and strikes at the bench."""

from __future__ import annotations

from pathlib import Path

from textual.widgets import Input

from coach.bench.session import Session
from coach.bench.shop import Shop
from coach.screens.bench import BenchScreen
from coach.screens.remedies import RemediesScreen
from coach.screens.sheet import SheetScreen
from tests.bench.jobs import at_step_of
from tests.screens.stage import a_job, answer_on, at_the_bench, clock, screen_text, showing, words_on
from tests.told import entry_text


def good_point(session: Session) -> None:
    """Both sizes of the first step, read where they were expected."""
    session.read("point.side", "8")
    expected = next(c.expected for c in session.standing().checks if c.name == "point.length")
    assert expected is not None
    session.read("point.length", f"{expected.value:.1f}")


async def test_a_heat_is_one_key(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("f2")
        assert answer_on(bench.coach) == "Heat 1 of 2 is marked."
        assert "heat 1 of 2" in words_on(bench.coach)


async def test_undo_at_a_question_is_a_no_and_takes_back_nothing_that_was_entered_before(
    shop: Shop, job: Session
) -> None:
    async with at_the_bench(shop, job, now=lambda: job.standing().last_at) as (bench, pilot):
        await pilot.press("f2", "f2")
        assert "Enter marks one more" in answer_on(bench.coach)
        await pilot.press("f8")
        assert answer_on(bench.coach).startswith("No heat is marked. Nothing is struck out")
        assert "heat 1 of 2" in words_on(bench.coach)
        await pilot.press("f4", "f8")
        assert answer_on(bench.coach).startswith("The step goes on. Nothing is struck out")
        assert "heat 1 of 2" in words_on(bench.coach)
        await pilot.press("f8")
        assert "heat 0 of 2" in words_on(bench.coach)


async def test_once_the_end_is_asked_about_enter_ends_the_step_wherever_that_is_told(
    shop: Shop, job: Session
) -> None:
    job.heat()
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("up")
        assert words_on(bench.coach).count("Enter asks") == 2
        await pilot.press("f4")
        assert "Enter finishes step 1" in words_on(bench.coach)
        assert "Enter ends" in words_on(bench.coach)
        assert "Enter asks" not in words_on(bench.coach)


async def test_a_step_with_nothing_left_to_measure_is_done_at_one_key(shop: Shop, job: Session) -> None:
    job.heat()
    good_point(job)
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("f4")
        assert "2/3 Draw the shank" in words_on(bench.coach)


async def test_a_key_pressed_twice_by_a_glove_does_not_finish_the_step_after_it_too(
    shop: Shop, job: Session
) -> None:
    job.heat()
    good_point(job)
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("f4", "f4")
        assert "2/3 Draw the shank" in words_on(bench.coach)
        await pilot.press("f4", "f4")
        assert "3/3 Look it over" in words_on(bench.coach)
        assert answer_on(bench.coach).startswith("? Shank length is not measured. Enter or F4 finishes")


async def test_finishing_with_a_size_unread_asks_first(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("f4")
        assert answer_on(bench.coach).startswith("? Point side and point length are not measured")
        assert job.standing().step is not None
        await pilot.press("f4")
        assert "2/3 " in words_on(bench.coach)


async def test_enter_says_yes_as_well(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("f4", "enter")
        assert "2/3 " in words_on(bench.coach)


async def test_escape_goes_on_with_the_step(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("f4", "escape")
        assert answer_on(bench.coach) == "The step goes on."
        await pilot.press("f4")
        assert "1/3 " in words_on(bench.coach)


async def test_typing_takes_the_question_back(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("f4", "8", "enter")
        assert "1/3 " in words_on(bench.coach)
    assert job.standing().checks[0].reading is not None


async def test_enter_alone_runs_through_the_sizes_and_finishes_the_step(shop: Shop, job: Session) -> None:
    good_point(job)
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("enter")
        assert answer_on(bench.coach).startswith("? Nothing is left to measure.")
        await pilot.press("enter")
        assert "2/3 " in words_on(bench.coach)


async def test_back_takes_the_last_step_up_again(shop: Shop, job: Session) -> None:
    good_point(job)
    job.done()
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("f5")
        assert "1/3 " in words_on(bench.coach)
        assert "8 mm" in words_on(bench.coach)


async def test_going_back_from_the_first_step_is_refused_in_a_sentence(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("f5")
        assert answer_on(bench.coach).startswith("! No step is finished yet")


async def test_the_last_entry_is_struck_out_at_one_key(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("8", "enter", "f8")
        assert answer_on(bench.coach).startswith("Struck out: point side 8 mm")
        assert "· not read" in words_on(bench.coach)


async def test_a_note_keeps_every_character(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        for text in ("[bold]x[/]", "[/", "lap at 40 mm, dress it"):
            await pilot.press("f6")
            bench.query_one(Input).value = text
            await pilot.press("enter")
            assert answer_on(bench.coach) == "Noted."
    assert [note.text for note in job.standing().notes] == ["[bold]x[/]", "[/", "lap at 40 mm, dress it"]


async def test_notes_are_shown_as_they_were_written(shop: Shop, job: Session) -> None:
    job.note("[bold]x[/] and [/")
    async with at_the_bench(shop, job, size=(160, 48)) as (bench, _):
        assert "Note [bold]x[/] and [/" in words_on(bench.coach)


async def test_a_note_put_off_and_a_size_half_typed_are_both_kept(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        box = bench.query_one(Input)
        box.value = "8."
        await pilot.press("f6")
        assert box.value == ""
        box.value = "a lap at"
        await pilot.press("escape")
        assert box.value == "8."
        await pilot.press("f6")
        assert box.value == "a lap at"


async def test_an_empty_note_is_refused(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("f6", "enter")
        assert answer_on(bench.coach).startswith("! The note is empty")


async def test_the_last_step_leaves_a_finished_job(shop: Shop, job: Session) -> None:
    job.done()
    job.done()
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("f4", "f4")
        await pilot.pause()
        assert showing(bench.app) is SheetScreen
        await pilot.press("escape")
        await pilot.pause()
        assert "All 3 steps are done" in words_on(bench.coach)
        await pilot.press("enter")
        assert answer_on(bench.coach).startswith("Every step is done")
        await pilot.press("f4")
        assert answer_on(bench.coach).startswith("! Every step of this job is done")


async def test_a_finished_tool_is_measured_by_the_name_of_the_size(shop: Shop, job: Session) -> None:
    for _ in range(3):
        job.done()
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press(*"92", "enter")
        await pilot.pause()
        assert "such as point side=31.5" in answer_on(bench.coach)
        await pilot.press("backspace", "backspace", *"point length=92", "enter")
        await pilot.pause()
        assert answer_on(bench.coach).startswith("point length 92 mm: good")
        assert entry_text(job.history()[-1]).startswith("point length 92 mm")
    (length,) = (size for size in job.standing().sizes if size.name == "point.length")
    assert length.measured


async def test_what_another_window_enters_is_shown(shop: Shop, job: Session, tmp_path: Path) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        with Shop(tmp_path / "shop.sqlite", clock()) as other:
            other.open(job.job).read("point.side", "8.2")
        bench.catch_up()
        await pilot.pause()
        assert answer_on(bench.coach).startswith("Entered elsewhere: point side 8.2 mm")
        assert "✓ good" in words_on(bench.coach)


async def test_an_entry_on_top_of_another_window_is_refused_and_kept_in_the_box(
    shop: Shop, job: Session, tmp_path: Path
) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        with Shop(tmp_path / "shop.sqlite", clock()) as other:
            other.open(job.job).heat()
        await pilot.press("8", "enter")
        assert bench.query_one(Input).value == "8"
        assert answer_on(bench.coach).startswith("! ")
        assert "heat 1 of 2" in words_on(bench.coach)
        await pilot.press("enter")
        assert bench.query_one(Input).value == ""
    assert job.standing().heats == 1


async def test_the_star_shows_the_ways_back_and_one_can_be_taken_and_struck_out(
    shop: Shop, job: Session
) -> None:
    job.read("point.side", "6.8", insist=True)
    async with at_the_bench(shop, job) as (bench, pilot):
        assert "* ways back" in words_on(bench.coach)
        await pilot.press("asterisk")
        await pilot.pause()
        assert showing(bench.app) is RemediesScreen
        assert "Accept the point side at 6.8 mm" in words_on(bench.coach)
        await pilot.press("enter", "enter")
        await pilot.pause()
        assert showing(bench.app) is BenchScreen
        assert entry_text(job.history()[-1]).startswith("way back: ")
        await pilot.press("f8")
        assert job.history()[-1].kind == "struck"


async def test_where_nothing_is_wrong_the_ways_back_say_so(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("ctrl+r")
        await pilot.pause()
        assert "Nothing is wrong that needs a way back." in words_on(bench.coach)
        await pilot.press("enter")
        await pilot.pause()
        assert showing(bench.app) is BenchScreen


async def test_a_finished_job_asks_for_no_measurement_of_a_step(shop: Shop, job: Session) -> None:
    for _ in range(3):
        job.done()
    async with at_the_bench(shop, job) as (bench, _):
        assert "Every step is done." in words_on(bench.coach)
        assert "This step" not in words_on(bench.coach)
        assert "0 heats" not in words_on(bench.coach)


async def test_a_step_that_took_no_heat_of_its_own_can_be_told_at_the_bench(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("f4")
        assert "counts the 2 planned heats, Delete none" in " ".join(answer_on(bench.coach).split())
        await pilot.press("delete")
        await pilot.pause()
        assert answer_on(bench.coach).startswith("Step 1, Draw the point, is done")
        assert "no heat was marked" not in answer_on(bench.coach)
    assert job.standing().done[-1].heats == 0


NEXT_MORNING = "2026-03-03T07:30:00Z"


async def test_after_a_night_in_the_fire_it_is_asked_what_was(shop: Shop, job: Session) -> None:
    job.fire()
    async with at_the_bench(shop, job, now=lambda: NEXT_MORNING) as (bench, pilot):
        await pilot.press("f2")
        asked = " ".join(answer_on(bench.coach).split())
        assert "in the fire. Enter: it did" in asked
        assert "Delete: the fire was out" in asked
        assert "fire out" in words_on(bench.coach)
        assert "Del no heat" not in words_on(bench.coach)
        await pilot.press("delete")
        await pilot.pause()
        assert answer_on(bench.coach) == "Heat 1 of 2 is marked."
    assert [one.kind for one in job.history()][-2:] == ["fire", "heat fire out"]


async def test_a_night_that_it_did_lie_hot_counts(shop: Shop, job: Session) -> None:
    job.fire()
    async with at_the_bench(shop, job, now=lambda: NEXT_MORNING) as (bench, pilot):
        await pilot.press("f2", "enter")
        await pilot.pause()
        assert "Heat 1 of 2 is marked" in answer_on(bench.coach)
    assert [one.kind for one in job.history()][-2:] == ["fire", "heat"]


async def test_esc_marks_no_heat_after_a_night(shop: Shop, job: Session) -> None:
    job.fire()
    async with at_the_bench(shop, job, now=lambda: NEXT_MORNING) as (bench, pilot):
        await pilot.press("f2", "escape")
        assert answer_on(bench.coach) == "No heat is marked."
    assert job.standing().heats == 0


async def test_delete_takes_a_letter_out_where_nothing_is_asked(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("8", "1", "home", "delete")
        assert bench.query_one(Input).value == "1"
    assert job.standing().last_entry == 1


async def test_planned_heats_are_never_counted_without_asking(shop: Shop, job: Session) -> None:
    good_point(job)
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("f4")
        assert "No heat is marked: Enter or F4 counts the 2 planned heats" in " ".join(
            answer_on(bench.coach).split()
        )
        await pilot.press("f4")
        assert "2/3 Draw the shank" in words_on(bench.coach)


async def test_a_step_that_was_gone_back_to_counts_the_heats_that_it_was_said_to_have_taken(
    shop: Shop, job: Session
) -> None:
    good_point(job)
    job.done(heats=5)
    job.back()
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("f4")
        assert "Enter or F4 counts the 5 heats told before" in " ".join(answer_on(bench.coach).split())
        await pilot.press("enter")
        await pilot.pause()
    assert job.standing().done[-1].heats == 5


async def test_a_number_that_stands_in_the_box_is_told_before_its_step_is_finished(
    shop: Shop, job: Session
) -> None:
    job.heat()
    good_point(job)
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("5", "f4")
        assert answer_on(bench.coach).startswith("? 5 stands in the box and is not entered.")
        await pilot.press("f4")
        assert bench.query_one(Input).value == "5"
        await pilot.press("enter")
        await pilot.pause()
        assert bench.query_one(Input).value == "5", "it is no size of the step that is in hand now"
    readings = [entry for entry in job.history() if entry.kind == "reading"]
    assert len(readings) == 2


async def test_a_heat_that_a_step_has_no_use_for_is_asked_about(shop: Shop, job: Session) -> None:
    for _ in range(2):
        job.done()
    assert job.standing().step is not None
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("f2")
        assert answer_on(bench.coach).startswith("? This step needs no fire.")
        await pilot.press("escape")
        assert answer_on(bench.coach) == "No heat is marked."
        assert job.standing().heats == 0
        await pilot.press("f2", "enter")
        await pilot.pause()
        assert job.standing().heats == 1


async def test_a_key_that_is_held_down_marks_no_fifty_heats(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press(*["f2"] * 12)
        await pilot.pause()
        assert "6 heats of 2 planned are marked" in answer_on(bench.coach)
        assert job.standing().heats == 6


async def test_several_entries_made_elsewhere_are_counted(shop: Shop, job: Session, tmp_path: Path) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        with Shop(tmp_path / "shop.sqlite", clock()) as other:
            other.open(job.job).heat()
            other.open(job.job).note("tongs slip")
        bench.catch_up()
        await pilot.pause()
        assert answer_on(bench.coach).startswith("Entered elsewhere: 1 more, and last")


async def test_a_note_is_taken_though_another_window_was_first(
    shop: Shop, job: Session, tmp_path: Path
) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("f6", *"slips")
        with Shop(tmp_path / "shop.sqlite", clock()) as other:
            other.open(job.job).done()
        await pilot.press("enter")
        await pilot.pause()
        assert answer_on(bench.coach).startswith("Noted. Entered elsewhere before that: step 1 done")
        assert job.history()[-1].kind == "note"
        assert (step := bench.session.standing().step) is not None
        assert step.number == 2


async def test_leaving_with_a_number_in_the_box_asks_first(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("8", "escape")
        assert answer_on(bench.coach).startswith("? 8 stands in the box and would be lost")
        assert showing(bench.app) is BenchScreen
        await pilot.press("escape")
        await pilot.pause()
        assert showing(bench.app) is not BenchScreen


async def test_tab_turns_the_page_whether_or_not_there_are_ways_back(shop: Shop, job: Session) -> None:
    job.read("point.side", "7.3")  # tight: ways back are offered, and the page does not turn by itself
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.pause()
        seen = []
        for _ in range(4):
            heading = next(line for line in screen_text(bench.coach).splitlines() if line.startswith("─"))
            seen.append(heading.strip("─ ").split("─")[0])
            await pilot.press("tab")
            await pilot.pause()
        assert len(set(seen)) == 4, seen


async def test_off_plan_the_next_step_shows_what_to_do_again(shop: Shop, job: Session) -> None:
    job.read("point.side", "6", insist=True)
    async with at_the_bench(shop, job) as (bench, pilot):
        assert "─ Off plan ─" in words_on(bench.coach)
        await pilot.press("f4", "f4")
        await pilot.pause()
        assert "2/3 Draw the shank" in words_on(bench.coach)
        assert "─ Do ─" in words_on(bench.coach)
        assert "From the point back to the end." in words_on(bench.coach)


async def test_the_box_stays_at_a_questioned_size_though_an_earlier_one_is_unread(
    shop: Shop, job: Session
) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("down")
        await pilot.press(*"900", "enter")
        await pilot.pause()
        assert "point length cold, by" in words_on(bench.coach)
        assert "F12 it is so" in words_on(bench.coach)
        await pilot.press("f12")
        await pilot.pause()
        assert not job.standing().questioned


async def test_letters_typed_upon_what_was_refused_begin_anew(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press(*"s 8..1", "enter")
        await pilot.pause()
        assert bench.query_one(Input).value == "s 8..1"
        await pilot.press(*"l 90", "enter")
        await pilot.pause()
        assert answer_on(bench.coach).startswith("point length 90 mm")


async def test_a_reading_that_cannot_be_told_is_read_again_before_another(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press(*"7.3", "enter")  # a calliper's doubt from the 7.2 that is allowed
        await pilot.pause()
        assert "unsure" in answer_on(bench.coach)
        assert "point side cold, by" in words_on(bench.coach)
        await pilot.press("enter")  # nothing typed: on to the next
        await pilot.pause()
        assert "point length cold, by" in words_on(bench.coach)


async def test_it_is_asked_about_too_where_heats_are_only_counted(shop: Shop) -> None:
    """A normalising has no clock, and a key held too long would mark its heats at once."""
    chisel = at_step_of("cold-chisel", 6)
    async with at_the_bench(shop, chisel, now=lambda: chisel.standing().last_at) as (bench, pilot):
        await pilot.press("f2")
        await pilot.pause()
        await pilot.press("f2")
        await pilot.pause()
        assert answer_on(bench.coach).startswith("? A heat was marked 0 s ago.")
        assert chisel.standing().heats == 1


async def test_a_second_heat_within_moments_is_asked_about(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job, now=lambda: job.standing().last_at) as (bench, pilot):
        await pilot.press("f2")
        await pilot.pause()
        await pilot.press("f2")
        await pilot.pause()
        assert answer_on(bench.coach).startswith("? A heat was marked 0 s ago.")
        assert job.standing().heats == 1
        await pilot.press("enter")
        await pilot.pause()
        assert job.standing().heats == 2


async def test_a_job_of_another_name_than_its_recipe_says_so(shop: Shop, job: Session) -> None:
    second = a_job(shop)
    assert second.job != job.job
    async with at_the_bench(shop, second) as (bench, _):
        assert f"Tent peg · {second.job}" in words_on(bench.coach)
