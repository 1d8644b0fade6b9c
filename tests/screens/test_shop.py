"""The shop: the face of what is chosen, both lists, what is found in them, and what is remembered of them."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from textual.content import Content
from textual.events import Paste

from coach.bench.glance import JobSummary
from coach.bench.session import Session
from coach.bench.shop import Shop
from coach.log.status import JobStatus
from coach.remembered import Memory
from coach.screens.app import CoachApp
from coach.screens.resume import ResumeScreen
from coach.screens.shop import ShopScreen
from coach.screens.widgets.find_line import FindLine
from coach.screens.widgets.picture import Picture
from coach.screens.widgets.row_list import RowList
from coach.screens.wording import Ink
from tests.screens.stage import (
    COMMON,
    PEG,
    ROOMY,
    SMALL,
    a_shop,
    answer_on,
    on_stage,
    recipes,
    screen_text,
    settled,
    showing,
    words_on,
)

KEYS = {" ": "space", "/": "slash", ".": "full_stop"}
SPIKE = PEG.replace("Tent peg", "Boat spike")


def row_of(app: CoachApp, title: str) -> str:
    """The row of a list that begins with a title, the chosen one's sign before it."""
    rows = re.split("─ (?:In hand|Jobs) ─", screen_text(app), maxsplit=1)[-1].splitlines()
    return next((row for row in rows if row.lstrip(" ▸").startswith(title)), "")


async def test_the_face_says_of_the_chosen_job_what_to_read_first_and_how_it_stands(
    shop: Shop, job: Session, tmp_path: Path
) -> None:
    job.heat()
    job.to_right("point: dress the lap")
    job.rest()
    later = "2026-03-05T12:00:00Z"
    async with on_stage(shop, folders=recipes(tmp_path), now=lambda: later) as (app, pilot):
        await settled(app, pilot)
        words = words_on(app)
        assert "First read point side, wanted 8 ±0.8 mm" in words
        assert "Fix point: dress the lap (step 1)" in words
        assert "Rest 3 days ago, cold, nothing open" in words
        assert "ON PLAN" in words
        assert "of 3" in words
        assert "✓ on plan" in row_of(app, "Tent peg")
        assert row_of(app, "Tent peg").endswith("3 days")


async def test_a_job_in_the_fire_is_told_so(shop: Shop, job: Session, tmp_path: Path) -> None:
    job.heat()
    job.fire()
    async with on_stage(shop, folders=recipes(tmp_path)) as (app, pilot):
        await settled(app, pilot)
        assert "Worked in the fire since 09:08" in words_on(app)
        assert row_of(app, "Tent peg").endswith("in the fire")


@pytest.mark.parametrize("size", [COMMON, ROOMY])
async def test_quenched_steel_that_is_not_tempered_is_told_first_and_in_no_green(
    shop: Shop, tmp_path: Path, size: tuple[int, int]
) -> None:
    path = Path(__file__).parents[2] / "recipes" / "cold-chisel.yaml"
    chisel = shop.begin(path.read_text("utf-8"), path.name)
    while not chisel.standing().rest_reason:
        chisel.done()
    async with on_stage(shop, folders=recipes(tmp_path), size=size) as (app, pilot):
        await settled(app, pilot)
        assert row_of(app, "temper now: Cold chisel")
        now = next(line for line in screen_text(app).splitlines() if "Now " in line)
        assert "temper now. Step " in now
        told = app.screen.query_one("#jobs", RowList).options[0].prompt
        assert isinstance(told, Content)
        inks = {str(told)[span.start : span.end].strip(): span.style for span in told.spans}
        assert inks["temper now:"] == Ink.BAD
        assert Ink.GOOD not in inks.values()
        words = words_on(app)
        assert words.index("Now temper now") < words.index("First read")


async def test_in_a_narrow_window_what_may_not_wait_cuts_no_name_of_a_job(shop: Shop, tmp_path: Path) -> None:
    path = Path(__file__).parents[2] / "recipes" / "cold-chisel.yaml"
    chisel = shop.begin(path.read_text("utf-8"), path.name)
    while not chisel.standing().rest_reason:
        chisel.done()
    async with on_stage(shop, folders=recipes(tmp_path), size=SMALL) as (app, pilot):
        await settled(app, pilot)
        row = row_of(app, "Cold chisel")
        assert "…" not in row
        assert row.rstrip().endswith("temper now")


async def test_a_job_left_in_the_fire_on_another_day_is_in_no_fire(
    shop: Shop, job: Session, tmp_path: Path
) -> None:
    job.heat()
    job.fire()
    async with on_stage(shop, folders=recipes(tmp_path), now=lambda: "2026-03-09T12:00:00Z") as (app, pilot):
        await settled(app, pilot)
        assert "in the fire" not in words_on(app)


async def test_what_was_told_of_a_job_before_stands_on_the_first_frame(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    memory = Memory(tmp_path / "cache")
    with a_shop(tmp_path) as shop:
        shop.begin(PEG, "peg.yaml")
        async with on_stage(shop, memory=memory) as (app, pilot):
            await settled(app, pilot)
            assert "ON PLAN" in words_on(app)
    with a_shop(tmp_path) as shop:
        monkeypatch.setattr(Shop, "open", None)
        monkeypatch.setattr(Shop, "summary", None)
        async with on_stage(shop, memory=memory) as (app, pilot):
            assert "ON PLAN" in words_on(app)
            await settled(app, pilot)
            assert "First read point side" in words_on(app)


async def test_an_entry_makes_what_was_remembered_void(tmp_path: Path) -> None:
    memory = Memory(tmp_path / "cache")
    with a_shop(tmp_path) as shop:
        job = shop.begin(PEG, "peg.yaml")
        async with on_stage(shop, memory=memory) as (app, pilot):
            await settled(app, pilot)
            assert "Fix nothing" in words_on(app)
        job.to_right("point: dress the lap")
        async with on_stage(shop, memory=memory) as (app, pilot):
            await settled(app, pilot)
            assert "Fix point: dress the lap" in words_on(app)


async def test_letters_find_a_job_or_a_recipe_and_escape_shows_all_again(
    shop: Shop, job: Session, tmp_path: Path
) -> None:
    folders = recipes(tmp_path, peg=PEG, spike=SPIKE)
    async with on_stage(shop, folders=folders) as (app, pilot):
        await settled(app, pilot)
        await pilot.press("s", "p", "i")
        await settled(app, pilot)
        assert "find › spi█" in words_on(app)
        assert row_of(app, "Boat spike").startswith(" ▸")
        assert "▸ Tent peg" not in words_on(app)
        await pilot.press("x")
        assert answer_on(app) == "! Nothing is called spix. Backspace takes a letter back, Esc all."
        await pilot.press("escape")
        await settled(app, pilot)
        assert row_of(app, "Tent peg").startswith(" ▸"), "as before the search"
        await pilot.press("p", "e", "g")
        await settled(app, pilot)
        await pilot.press("enter")
        await pilot.pause()
        assert showing(app) is ResumeScreen or len(shop.jobs()) == 1


async def test_a_recipe_that_is_found_beside_a_job_of_it_says_that_enter_begins_another(
    shop: Shop, job: Session, tmp_path: Path
) -> None:
    async with on_stage(shop, folders=recipes(tmp_path)) as (app, pilot):
        await settled(app, pilot)
        await pilot.press("tab", "p", "e", "g")
        await settled(app, pilot)
        assert answer_on(app) == "Enter begins another one; Tab goes to the job in hand."
        await pilot.press("tab", "enter")
        await pilot.pause()
        assert [one.job for one in shop.jobs()] == [job.job]


async def test_a_number_that_a_gauge_types_finds_nothing_and_opens_nothing(
    shop: Shop, job: Session, tmp_path: Path
) -> None:
    async with on_stage(shop, folders=recipes(tmp_path)) as (app, pilot):
        await settled(app, pilot)
        await pilot.press(*"8.2", "enter")
        assert showing(app) is ShopScreen
        assert app.screen.query_one(FindLine).sought == ""
        assert "nothing was done with that number" in answer_on(app)


@pytest.mark.parametrize("typed", ["5/16 in", "8.2mm", "1 1/4 in", "in 5", ""])
async def test_a_size_that_is_typed_in_the_shop_begins_no_job(shop: Shop, tmp_path: Path, typed: str) -> None:
    folders = recipes(tmp_path, ring=PEG.replace("Tent peg", "Ring 5 of 16 in a mm"))
    async with on_stage(shop, folders=folders) as (app, pilot):
        await settled(app, pilot)
        if typed:
            await pilot.press(*(KEYS.get(letter, letter) for letter in typed))
        else:
            app.screen.post_message(Paste("in 5 16"))
        await settled(app, pilot)
        await pilot.press("enter")
        await settled(app, pilot)
        assert showing(app) is ShopScreen
        assert not shop.jobs()
        assert "Sizes are typed at the bench" in answer_on(app)
        await pilot.press("escape", "i", "n", "enter")
        await settled(app, pilot)
        assert len(shop.jobs()) == 1


async def test_a_name_with_a_number_in_it_is_found_and_opened(
    shop: Shop, job: Session, tmp_path: Path
) -> None:
    job.heat()
    second = shop.begin(PEG, "peg.yaml")
    second.heat()
    async with on_stage(shop, folders=(tmp_path / "none",)) as (app, pilot):
        await settled(app, pilot)
        await pilot.press(*"peg", "minus", "2", "enter")
        await pilot.pause()
        assert app.in_hand is not None
        assert app.in_hand.job == "tent-peg-2"


@pytest.mark.parametrize("size", [SMALL, COMMON, ROOMY])
async def test_jobs_of_one_recipe_are_told_apart_by_their_names(
    shop: Shop, tmp_path: Path, size: tuple[int, int]
) -> None:
    for name in (None, None, "h2", "h3"):
        shop.begin(PEG, "peg.yaml", name)
    async with on_stage(shop, folders=(tmp_path / "none",), size=size) as (app, pilot):
        await settled(app, pilot)
        rows = screen_text(app)
        assert all(f"Tent peg · {name} " in rows for name in ("2", "h2", "h3"))
        assert "Tent peg  " in rows


async def test_what_is_finished_does_not_stand_under_in_hand(
    shop: Shop, job: Session, tmp_path: Path
) -> None:
    for _ in range(job.standing().steps):
        job.done()
    async with on_stage(shop, folders=recipes(tmp_path)) as (app, pilot):
        await settled(app, pilot)
        words = words_on(app)
        assert "0 jobs in hand, 1 finished" in words
        assert "─ In hand ─" not in words
        assert "─ Jobs ─" in words
        await pilot.pause()


async def test_a_hundred_jobs_are_gone_through_with_the_chosen_one_in_sight(
    shop: Shop, tmp_path: Path
) -> None:
    for number in range(100):
        shop.begin(PEG.replace("Tent peg", f"Peg {number}"), "peg.yaml")
    async with on_stage(shop, folders=recipes(tmp_path)) as (app, pilot):
        await settled(app, pilot)
        assert "100 jobs in hand" in words_on(app)
        assert row_of(app, "Peg 99").startswith(" ▸")
        await pilot.press("end")
        await settled(app, pilot)
        assert row_of(app, "Peg 0").startswith(" ▸")
        assert "✓ on plan" in row_of(app, "Peg 0")


async def test_a_damaged_job_says_why_and_hides_none_of_the_others(tmp_path: Path) -> None:
    path = tmp_path / "shop.sqlite"
    with a_shop(tmp_path) as shop:
        shop.begin(SPIKE, "spike.yaml").note("A sound entry.")
        shop.begin(PEG, "peg.yaml")
    path.write_bytes(path.read_bytes().replace(b"A sound entry.", b"A sxund entry."))
    with a_shop(tmp_path) as shop:
        async with on_stage(shop, folders=recipes(tmp_path)) as (app, pilot):
            await settled(app, pilot)
            assert "✗ damaged" in row_of(app, "boat-spike")
            await pilot.press("down")
            await settled(app, pilot)
            assert "DAMAGED" in words_on(app)
            await pilot.press("enter")
            assert showing(app) is ShopScreen
            assert answer_on(app).startswith("! ")


async def test_a_finished_job_and_one_that_is_set_aside_say_so(
    shop: Shop, job: Session, tmp_path: Path
) -> None:
    for _ in range(3):
        job.done()
    job.note("hung over the door")  # an entry after the end, which is not told as the end
    shop.begin(SPIKE, "spike.yaml").set_aside()
    async with on_stage(shop, folders=recipes(tmp_path)) as (app, pilot):
        await settled(app, pilot)
        assert "0 jobs in hand, 1 finished, 1 set aside" in words_on(app)
        assert "TIGHT" in words_on(app), "as its sheet says, for its sizes are not measured"
        assert "~ done" in row_of(app, "Tent peg")
        assert "3/3" in row_of(app, "Tent peg")
        assert "Last today at " in words_on(app)
        await pilot.press("down")
        await settled(app, pilot)
        assert "SET ASIDE" in words_on(app)
        assert "Aside today" in words_on(app)


async def test_a_recipe_tells_its_steps_heats_time_and_level(shop: Shop, tmp_path: Path) -> None:
    async with on_stage(shop, folders=recipes(tmp_path)) as (app, pilot):
        await settled(app, pilot)
        assert row_of(app, "Tent peg").split() == [
            "▸",
            "Tent",
            "peg",
            "first",
            "work",
            "3",
            "3",
            "half",
            "an",
            "hour",
        ]
        assert "Asks first work, half an hour" in words_on(app)


async def test_where_there_is_room_the_finished_piece_is_drawn(
    shop: Shop, job: Session, tmp_path: Path
) -> None:
    async with on_stage(shop, folders=recipes(tmp_path), size=ROOMY) as (app, pilot):
        await settled(app, pilot)
        assert "Tent peg, finished" in words_on(app)
        assert "point" in str(app.screen.query_one(Picture).render())
        await pilot.press("tab")
        await settled(app, pilot)
        assert "Tent peg, finished" in words_on(app)
    async with on_stage(shop, folders=(tmp_path / "recipes",)) as (app, pilot):
        await settled(app, pilot)
        assert not app.screen.query_one(Picture).display


async def test_of_very_many_jobs_those_in_sight_are_read_first_and_the_rest_when_the_screen_is_idle(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    read: list[str] = []
    summary = Shop.summary

    def counted_summary(shop: Shop, name: str) -> JobSummary:
        read.append(name)
        return summary(shop, name)

    memory = Memory(tmp_path / "cache")
    with a_shop(tmp_path) as shop:
        peg = shop.begin(PEG, "peg.yaml")
        began = shop.log.entries(peg.job)[0]
        for number in range(2, 401):
            shop.log.begin(f"tent-peg-{number}", began.at, began.body)
        peg.note("the first of them, and touched last")
        monkeypatch.setattr(Shop, "summary", counted_summary)
        async with on_stage(shop, memory=memory, size=ROOMY) as (app, pilot):
            assert 20 <= len(read) <= 100
            assert read[:2] == ["tent-peg", "tent-peg-400"]
            assert "400 jobs, 340 of them still to be read" in words_on(app)
            await settled(app, pilot)
            assert sorted(read) == sorted(shop.log.jobs())
            assert "The shop: 400 jobs in hand" in words_on(app)
            listed = app.screen.query_one("#jobs", RowList)
            assert listed.option_count == 301
            assert "100 more jobs: letters find any of them" in str(listed.options[-1].prompt)
        read.clear()
        async with on_stage(shop, memory=memory, size=ROOMY) as (app, pilot):
            assert "The shop: 400 jobs in hand" in words_on(app)
            assert read == []


async def test_a_job_that_is_not_read_yet_is_found_once_it_is(tmp_path: Path) -> None:
    with a_shop(tmp_path) as shop:
        shop.begin(SPIKE, "spike.yaml")
        began = shop.log.entries(shop.begin(PEG, "peg.yaml").job)[0]
        for number in range(2, 151):
            shop.log.begin(f"tent-peg-{number}", began.at, began.body)
        async with on_stage(shop, folders=recipes(tmp_path)) as (app, pilot):
            await pilot.press("s", "p", "i")
            assert "Nothing is called spi among those read yet; 91 are still to be read" in answer_on(app)
            await settled(app, pilot)
            assert row_of(app, "Boat spike")
            assert "Nothing is called" not in answer_on(app)


async def test_a_stray_letter_and_enter_begin_no_job_while_one_is_in_hand(
    shop: Shop, job: Session, tmp_path: Path
) -> None:
    async with on_stage(shop, folders=recipes(tmp_path, peg=PEG, spike=SPIKE)) as (app, pilot):
        await settled(app, pilot)
        await pilot.press("b")  # there is none in the job's name
        await settled(app, pilot)
        assert row_of(app, "Boat spike").startswith(" ▸")
        await pilot.press("enter")
        await pilot.pause()
        assert [one.job for one in shop.jobs()] == [job.job]
        assert answer_on(app).startswith("? Begin Boat spike? A job is in hand.")
        await pilot.press("escape")
        await settled(app, pilot)
        assert row_of(app, "Tent peg").startswith(" ▸"), "the job in hand is chosen again"
        await pilot.press("enter")
        await pilot.pause()
        assert [one.job for one in shop.jobs()] == [job.job]
        assert showing(app) is not ShopScreen


async def test_what_is_found_of_a_job_and_of_a_recipe_puts_the_job_first(
    shop: Shop, job: Session, tmp_path: Path
) -> None:
    async with on_stage(shop, folders=recipes(tmp_path, peg=PEG, spike=SPIKE)) as (app, pilot):
        await settled(app, pilot)
        await pilot.press("b", "backspace", "p")  # away from the job and back to it
        await settled(app, pilot)
        assert row_of(app, "Tent peg").startswith(" ▸")


async def test_a_name_that_was_meant_is_begun_by_one_enter_more(
    shop: Shop, job: Session, tmp_path: Path
) -> None:
    async with on_stage(shop, folders=recipes(tmp_path, peg=PEG, spike=SPIKE)) as (app, pilot):
        await settled(app, pilot)
        await pilot.press("s", "p", "i", "enter", "enter")
        await pilot.pause()
        assert len(shop.jobs()) == 2


async def test_a_job_that_was_set_aside_is_taken_up_once_that_was_asked(
    shop: Shop, job: Session, tmp_path: Path
) -> None:
    job.set_aside()
    async with on_stage(shop, folders=recipes(tmp_path)) as (app, pilot):
        await settled(app, pilot)
        await pilot.press("ctrl+a")
        await pilot.pause()
        assert answer_on(app) == "? Take Tent peg up again? Enter or Ctrl+A again does, Esc does not."
        assert shop.jobs()[0].state is JobStatus.SET_ASIDE
        await pilot.press("escape")
        await pilot.pause()
        assert answer_on(app) == "It stays set aside."
        await pilot.press("ctrl+a", "enter")
        await pilot.pause()
        assert shop.jobs()[0].state is not JobStatus.SET_ASIDE
