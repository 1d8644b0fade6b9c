"""Another size than the one offered is typed by its first letters or its number."""

from __future__ import annotations

from collections.abc import Sequence
from types import SimpleNamespace
from typing import cast

import pytest
from textual.widgets import Input

from coach.bench.checks import Check
from coach.bench.session import Session
from coach.bench.shop import Shop
from coach.drafting.make import made_often
from coach.places import bundled_recipes
from coach.quantities import Refusal
from coach.screens.named_sizes import Named, doubted_words, is_of, named
from coach.screens.widgets.entry_box import EntryBox
from tests.bench.jobs import at_step, at_step_of, begun
from tests.screens.stage import answer_on, at_the_bench, words_on


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        ("l 91", Named("poll.length", "91")),
        ("l91", Named("poll.length", "91")),
        ("s 34,1", Named("poll.side", "34,1")),
        ("poll l 91", Named("poll.length", "91")),
        ("length = 91", Named("poll.length", " 91")),
        ("2=91", Named("poll.length", "91")),
        ("eye length=40", Named("eye length", "40")),  # of another zone: the job knows it
        ("91", None),
        ("1 1/4 in", None),
        ("31.5", None),
        ("light yellow", None),
        ("pass", None),
        ("", None),
    ],
)
def test_a_line_names_a_size_of_the_step_or_none(typed: str, told: Named | None) -> None:
    assert named(typed, at_step(2).standing().checks) == told


@pytest.mark.parametrize("typed", ["f fail", "file test fail", "F T Fail "])
def test_the_outcome_of_a_test_may_stand_behind_its_first_letters(typed: str) -> None:
    checks = at_step_of("cold-chisel", 9).standing().checks  # magnet, temperature, soak, file test
    assert named(typed, checks) == Named("edge.file_test", typed.rsplit(maxsplit=1)[-1])
    assert is_of(typed, checks[0]) is None


def test_letters_that_two_sizes_begin_with_are_asked_for_more() -> None:
    checks = at_step(4).standing().checks  # hole length, hole width, width
    with pytest.raises(Refusal, match="hole length, eye hole width"):
        named("h 30", checks)
    assert named("h l 30", checks) == Named("eye.hole_length", "30")
    assert named("w 30", checks) == Named("eye.width", "30")


def test_letters_that_no_size_begins_with_are_refused_in_a_sentence() -> None:
    with pytest.raises(Refusal, match="poll side, poll length"):
        named("w 40", at_step(2).standing().checks)


def test_a_number_that_no_size_has_is_refused_in_a_sentence() -> None:
    with pytest.raises(Refusal, match="1 to 2"):
        named("7=30", at_step(2).standing().checks)


async def test_the_letters_take_a_reading_and_leave_the_size_that_was_offered(
    shop: Shop, job: Session
) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press(*"l 90", "enter")
        await pilot.pause()
        assert answer_on(bench.coach).startswith("point length 90 mm")
        assert "▸ side" in words_on(bench.coach)
        await pilot.press(*"9=8", "enter")
        await pilot.pause()
        assert bench.query_one(Input).value == "9=8"
        assert "they are 1 to 2" in answer_on(bench.coach)


async def test_one_enter_ends_a_step_whose_sizes_are_all_good(shop: Shop, job: Session) -> None:
    job.heat()
    expected = next(one.expected for one in job.standing().checks if one.name == "point.length")
    assert expected is not None
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("8", "enter", *f"{expected.value:.0f}", "enter")
        await pilot.pause()
        assert "1/3 Draw the point" in words_on(bench.coach)
        await pilot.press("enter")
        await pilot.pause()
        assert "2/3 Draw the shank" in words_on(bench.coach)


async def test_numbers_that_wait_stay_while_a_note_is_written(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        # The first is no size, so that it and those sent behind it come back in turn.
        for text in ("8..1", "9..1", "7..1"):
            bench.query_one(Input).value = text
            bench.query_one(EntryBox).send()
        await pilot.pause()
        box = bench.query_one(Input)
        assert box.value == "8..1"
        await pilot.press("f6")
        await pilot.pause()
        assert box.value == ""
        await pilot.press(*"note", "enter")
        await pilot.pause()
        assert [note.text for note in job.standing().notes] == ["note"]
        seen = [box.value]
        for _ in range(2):
            await pilot.press(*["backspace"] * 4)
            await pilot.pause()
            seen.append(box.value)
        assert seen == ["8..1", "9..1", "7..1"]


async def test_a_refused_line_that_names_its_size_leaves_the_chosen_one(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press(*"x 120", "enter")
        await pilot.pause()
        assert bench.query_one(Input).value == "x 120"
        assert "point side cold, by" in words_on(bench.coach)
        assert "Enter finishes" not in words_on(bench.coach)


async def test_what_was_refused_is_not_told_over_the_row_that_is_chosen_next(
    shop: Shop, job: Session
) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press(*"9=", "enter")
        await pilot.pause()
        assert "No size of this step has the number 9" in answer_on(bench.coach)
        await pilot.press("home", "delete", "1", "enter")
        await pilot.pause()
        assert "number 9" not in words_on(bench.coach)


async def test_a_rows_number_alone_chooses_it_and_a_doubted_reading_of_its_figure_says_how(
    shop: Shop, job: Session
) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press(*"2=", "enter")
        await pilot.pause()
        assert "▸ length" in words_on(bench.coach)
        await pilot.press("up", "2", "enter")
        await pilot.pause()
        assert "Row 2 is chosen by 2= and Enter." in answer_on(bench.coach)


def test_what_is_to_be_measured_first_goes_by_its_letters_too() -> None:
    session = at_step(3)  # the eye is punched next: its width and length are measured before
    first = session.first_to_measure()
    assert {one.dimension for one in first} >= {"side", "length"}
    assert named("s 36", session.standing().checks, first) == Named("eye.side", "36")
    with pytest.raises(Refusal, match="No size of this step begins with"):
        named("s 36", session.standing().checks)


# The punch takes the two cheeks and where its hole's middle is along the bar, which no recipe asks for.
@pytest.mark.parametrize(
    ("typed", "told"),
    [
        ("cheek 9.5", Named("eye.cheek", "9.5")),
        ("other cheek 7.2", Named("eye.other_cheek", "7.2")),
        ("other cheek=7.2", Named("eye.other_cheek", "7.2")),
        ("centre 41.5", Named("eye.centre", "41.5")),
        ("eye centre 41.5", Named("eye.centre", "41.5")),
    ],
)
def test_what_a_step_takes_without_asking_for_it_goes_by_its_own_words(typed: str, told: Named) -> None:
    session = at_step(3)
    checks, besides = session.standing().checks, session.may_be_read()
    assert not any(one.name == told.name for one in checks)
    assert named(typed, checks, (), besides) == told


def test_a_letter_too_few_is_none_of_what_nobody_asks_for() -> None:
    session = at_step(2)  # drawn, so that it may be wound; it asks for side and length
    assert ("poll", "wind") in session.may_be_read()
    with pytest.raises(Refusal, match="poll side, poll length"):
        named("w 40", session.standing().checks, (), session.may_be_read())
    assert named("wind 2", session.standing().checks, (), session.may_be_read()) == Named("poll.wind", "2")


@pytest.mark.parametrize("typed", ["edge width 18.2", "edg w 18.2", "edge width=18.2", "width 18.2"])
def test_a_size_of_one_of_several_goes_by_its_name_without_that_piece_s(typed: str) -> None:
    text = made_often((bundled_recipes() / "cold-chisel.yaml").read_text(encoding="utf-8"), 2)
    job = begun(text)
    job.done()
    job.done()
    assert named(typed, job.standing().checks) == Named("chisel 1 edge.width", "18.2")


@pytest.mark.parametrize("typed", ["135 185 211", "28,5 103", "1=135 2=185 3=211"])
def test_several_numbers_in_one_line_are_refused_with_how_they_are_typed(typed: str) -> None:
    first = typed.split(maxsplit=1)[0]
    with pytest.raises(Refusal, match=f"one size at a time: type {first} and Enter, then the next"):
        named(typed, at_step(4).standing().checks)


@pytest.mark.parametrize("typed", ["1 1/4 in", "1 3/8", "1=1 1/4 in", "31.5", "2=91", "3 mm"])
def test_a_size_with_a_fraction_is_one_number(typed: str) -> None:
    named(typed, at_step(4).standing().checks)


async def test_the_cheek_that_the_bench_asks_about_is_typed_as_it_is_called(shop: Shop) -> None:
    hammer = at_step(3)
    hammer.heat()
    async with at_the_bench(shop, hammer) as (bench, pilot):
        for line, said in (("cheek 12", "eye cheek 12 mm"), ("other cheek=12.2", "eye other cheek 12.2 mm")):
            bench.query_one(Input).value = line
            await pilot.press("enter")
            await pilot.pause()
            assert answer_on(bench.coach).startswith(said)


@pytest.mark.parametrize(
    "typed", ["108 g", "108g", "mass=108 g", "hook mass 108 g", "hook mass=108 g", "hook 108 g", "hook=108 g"]
)
async def test_a_weight_is_that_of_the_piece_however_it_is_told(shop: Shop, typed: str) -> None:
    hook = at_step_of("first-hook", 7)
    async with at_the_bench(shop, hook) as (bench, pilot):
        asked = bench.check_shown(hook.standing())
        bench.query_one(Input).value = typed
        await pilot.press("enter")
        await pilot.pause()
        assert answer_on(bench.coach).startswith("hook mass 108 g: ")
        assert bench.query_one(Input).value == ""
        again = bench.check_shown(hook.standing())
        assert asked is not None
        assert again is not None
        assert again.name == asked.name  # which is still to be read
    read = hook.history()[-1].reading
    assert read is not None
    assert (read.zone, read.dimension, read.size.value) == ("hook", "mass", 108.0)


@pytest.mark.parametrize("typed", ["108 g", "mass=108 g", "hook mass 108 g"])
async def test_a_piece_on_its_bar_is_weighed_once_it_is_cut_off_and_the_bench_says_when(
    shop: Shop, typed: str
) -> None:
    hook = at_step_of("first-hook", 3)
    entries = hook.standing().last_entry
    async with at_the_bench(shop, hook) as (bench, pilot):
        bench.query_one(Input).value = typed
        await pilot.press("enter")
        await pilot.pause()
        told = "! The hook hangs on its bar until step 6 cuts it off: weigh it after that."
        assert answer_on(bench.coach) == told
    assert hook.standing().last_entry == entries


async def test_a_weight_goes_to_the_slug_where_that_is_asked_for(shop: Shop) -> None:
    hook = at_step_of("first-hook", 8)
    hook.read("plate.slug", "3 g")
    async with at_the_bench(shop, hook) as (bench, pilot):
        rows = len(hook.standing().checks)
        while rows and (shown := bench.check_shown(hook.standing())) and shown.name != "plate.slug":
            await pilot.press("down")
            rows -= 1
        assert shown is not None
        if shown.name == "plate.slug":
            bench.query_one(Input).value = "3 g"
            await pilot.press("enter")
            await pilot.pause()
            assert answer_on(bench.coach).startswith("plate slug 3 g")


async def test_weighing_is_found_by_its_name_and_waits_in_the_box_for_the_scales(shop: Shop) -> None:
    hook = at_step_of("first-hook", 7)
    async with at_the_bench(shop, hook) as (bench, pilot):
        await pilot.press("ctrl+p", *"weigh")
        await pilot.pause()
        assert "Nothing is called" not in words_on(bench.coach)
        await pilot.press("enter")
        await pilot.pause()
        assert bench.query_one(Input).value == "mass="
        await pilot.press(*"108 g", "enter")
        await pilot.pause()
        assert answer_on(bench.coach).startswith("hook mass 108 g: ")


def test_a_doubted_figure_that_fits_another_row_says_that_row_first() -> None:
    rows = [
        SimpleNamespace(name="a.length", fits="c.length"),
        *(SimpleNamespace(name=f"{z}.length", fits="") for z in "bc"),
    ]
    checks = cast("Sequence[Check]", rows)
    assert doubted_words("No.", "2", checks, "a.length") == "No. 3=2 enters it there."
    assert doubted_words("No.", "2", checks, "b.length") == "No. Row 2 is chosen by 2= and Enter."
