"""A question that stands: Enter alone or y says yes, n or Esc says no, and nothing else is a yes to it."""

from __future__ import annotations

from pathlib import Path

import pytest
from textual.pilot import Pilot
from textual.widgets import Input

from coach.bench.session import Session
from coach.bench.shop import Shop
from coach.log.status import JobStatus
from coach.screens.amend import AmendScreen
from coach.screens.bench import BenchScreen
from coach.screens.change import ChangeScreen
from coach.screens.happened import HappenedScreen
from coach.screens.new import NewScreen
from coach.screens.remedies import RemediesScreen
from coach.screens.shop import ShopScreen
from coach.screens.widgets.find_line import FindLine
from tests.bench.jobs import at_step_of
from tests.screens.stage import PEG, answer_on, at_the_bench, on_stage, recipes, showing, words_on

NEITHER = "is neither yes nor no"


async def _type(pilot: Pilot[None], text: str) -> None:
    pilot.app.screen.query_one(Input).value = text
    await pilot.press("enter")
    await pilot.pause()


async def _press(pilot: Pilot[None], text: str, *keys: str) -> None:
    await pilot.press(*text, *keys)
    await pilot.pause()


# ── where there is a box ─────────────────────────────────────────────────────────────────────────


async def test_no_to_a_change_enters_nothing_and_gives_the_line_back(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("ctrl+x")
        await _type(pilot, "heats 2 = 3")
        await _press(pilot, "no", "enter")
        assert showing(pilot.app) is ChangeScreen
        assert answer_on(bench.coach) == "Nothing is entered."
        assert pilot.app.screen.query_one(Input).value == "heats 2 = 3"
    assert job.standing().last_entry == 1


async def test_another_change_typed_to_the_question_enters_neither(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("ctrl+x")
        await _type(pilot, "heats 2 = 3")
        await _type(pilot, "skip 3")
        assert NEITHER in answer_on(bench.coach)
        assert pilot.app.screen.query_one(Input).value == "skip 3"
        assert job.standing().last_entry == 1
        await _type(pilot, "y")
        assert showing(pilot.app) is BenchScreen
    assert job.recipe.steps[1].heats == 3


async def test_no_to_metal_lost_loses_none(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("insert")
        for typed in ("1", "", "12", ""):
            await _type(pilot, typed)
        assert "Enter it?" in words_on(bench.coach)
        await _press(pilot, "no", "enter")
        assert showing(pilot.app) is HappenedScreen
    assert job.standing().last_entry == 1


async def test_no_to_a_changed_file_follows_it_not(shop: Shop, tmp_path: Path) -> None:
    folders = recipes(tmp_path)
    path = folders[0] / "tent-peg.yaml"
    job = shop.begin(PEG, str(path))
    path.write_text(PEG.replace("title: Draw the shank", "title: Draw it out"), encoding="utf-8")
    async with on_stage(shop, job, folders=folders) as (app, pilot):
        await pilot.press("ctrl+f", "enter")
        await pilot.pause()
        assert "Follow it from here on?" in words_on(app)
        await _type(pilot, "maybe")
        assert NEITHER in answer_on(app)
        await _type(pilot, "no")
        assert showing(app) is AmendScreen
        assert pilot.app.screen.query_one(Input).value == str(path)
        assert job.standing().last_entry == 1
        await pilot.press("enter", "y", "enter")
        await pilot.pause()
    assert job.standing().last_entry == 2


async def test_no_to_a_proposed_recipe_writes_none(shop: Shop, tmp_path: Path) -> None:
    folders = recipes(tmp_path)
    async with on_stage(shop, folders=folders) as (app, pilot):
        app.lay_over("new")
        await pilot.pause()
        for typed in (
            "Peg",
            "",
            "",
            "round 12, long 300",
            "point: round 12 to 3, long 60",
            "shank: round 10, long 150",
            *[""] * 12,
        ):
            if "Write this recipe?" in words_on(app):
                break
            await _type(pilot, typed)
        assert "Write this recipe?" in words_on(app)
        await _type(pilot, "maybe")
        assert NEITHER in answer_on(app)
        await _type(pilot, "no")
        assert showing(app) is NewScreen
        assert "Nothing is written." in answer_on(app)
    assert [one.name for one in folders[0].iterdir()] == ["tent-peg.yaml"]


# ── where there is none ──────────────────────────────────────────────────────────────────────────


@pytest.fixture
def thin(job: Session) -> Session:
    """The peg with its point drawn too thin."""
    job.read("point.side", "6.8", insist=True)
    return job


@pytest.mark.parametrize("said", ["no", "n", "maybe", "put off 4"])
async def test_what_is_no_yes_takes_no_way_back(shop: Shop, thin: Session, said: str) -> None:
    before = thin.standing().last_entry
    async with at_the_bench(shop, thin) as (bench, pilot):
        await pilot.press("asterisk")
        await pilot.pause()
        await _press(pilot, "", "enter")
        await _press(pilot, said)
        assert said in answer_on(bench.coach)
        await _press(pilot, "", "enter")
        assert showing(pilot.app) is RemediesScreen
        assert (NEITHER in answer_on(bench.coach)) == (said not in ("no", "n"))
        assert thin.standing().last_entry == before


async def test_yes_takes_the_way_back(shop: Shop, thin: Session) -> None:
    before = thin.standing().last_entry
    async with at_the_bench(shop, thin) as (_, pilot):
        await pilot.press("asterisk")
        await pilot.pause()
        await _press(pilot, "", "enter", "y", "enter")
        assert thin.standing().last_entry > before


async def test_no_to_closing_begins_no_job_and_looks_for_nothing(shop: Shop, tmp_path: Path) -> None:
    async with on_stage(shop, folders=recipes(tmp_path)) as (app, pilot):
        await pilot.pause()
        await _press(pilot, "", "ctrl+c", "n", "o", "enter")
        assert showing(app) is ShopScreen
        assert answer_on(app) == "The coach stays open."
        assert app.screen.query_one(FindLine).sought == ""
        assert not shop.jobs()
        await _press(pilot, "", "ctrl+c", "e", "r", "enter")
        assert NEITHER in answer_on(app)
        assert not shop.jobs()
        await _press(pilot, "", "escape", "ctrl+c", "y", "enter")
        assert app._exit is True


async def test_no_at_the_bench_is_no_size_and_y_is_yes(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await _press(pilot, "", "f4", "n", "o", "enter")
        assert answer_on(bench.coach) == "The step goes on."
        assert pilot.app.screen.query_one(Input).value == ""
        assert job.standing().last_entry == 1
        await _press(pilot, "", "f4", "y", "enter")
        assert (step := job.standing().step) is not None
        assert step.number == 2


async def test_a_size_named_behind_a_question_goes_into_the_box_whole(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (_, pilot):
        await _press(pilot, "", "f4", "n", "e", "c", "k")
        assert pilot.app.screen.query_one(Input).value == "neck"


async def test_what_was_asked_of_a_closing_goes_with_the_next_key(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await _press(pilot, "53", "ctrl+c")
        assert "53" in answer_on(bench.coach)
        await _press(pilot, "", "ctrl+u")
        assert "53" not in answer_on(bench.coach)


async def test_no_sets_no_job_aside(shop: Shop, job: Session, tmp_path: Path) -> None:
    async with on_stage(shop, folders=recipes(tmp_path)) as (app, pilot):
        await pilot.pause()
        await _press(pilot, "", "ctrl+a", "n", "o", "enter")
        assert answer_on(app) == "It stays in hand."
        assert shop.jobs()[0].state is JobStatus.UNDER_WAY
        await _press(pilot, "", "ctrl+a", "enter")
        assert shop.jobs()[0].state is JobStatus.SET_ASIDE


# ── a job just begun ─────────────────────────────────────────────────────────────────────────────


async def test_a_job_just_begun_is_taken_back_by_f8_asked_once(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await _press(pilot, "", "f8")
        assert "Nothing is entered yet" in answer_on(bench.coach)
        await _press(pilot, "", "escape")
        assert answer_on(bench.coach) == "The job goes on."
        assert showing(pilot.app) is BenchScreen
        await _press(pilot, "", "f8", "f8")
        assert showing(pilot.app) is ShopScreen
        assert "set aside" in answer_on(bench.coach)
    assert shop.jobs()[0].state is JobStatus.SET_ASIDE


async def test_f8_takes_no_job_back_once_something_was_entered(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (_, pilot):
        await _press(pilot, "", "f2", "f8", "f8", "f8")
        assert showing(pilot.app) is BenchScreen
    assert shop.jobs()[0].state is JobStatus.UNDER_WAY


async def test_ctrl_u_takes_away_what_is_looked_for_before_it_shows_the_rack(
    shop: Shop, tmp_path: Path
) -> None:
    async with on_stage(shop, folders=recipes(tmp_path)) as (app, pilot):
        await pilot.pause()
        await _press(pilot, "peg", "ctrl+u")
        assert showing(app) is ShopScreen
        assert app.screen.query_one(FindLine).sought == ""
        await _press(pilot, "", "ctrl+u")
        assert showing(app) is not ShopScreen


@pytest.mark.parametrize("key", ["f7", "slash", "minus"])
async def test_a_key_that_says_how_sizes_are_read_ends_the_question_of_one_more_heat(
    shop: Shop, job: Session, key: str
) -> None:
    async with at_the_bench(shop, job, now=lambda: job.standing().last_at) as (bench, pilot):
        for _ in range(2):
            await pilot.press("f2")
            await pilot.pause()
        assert "Enter marks one more" in words_on(bench.coach)
        await pilot.press(key)
        await pilot.pause()
        assert "marks one more" not in words_on(bench.coach)
        await pilot.press("enter")
        await pilot.pause()
        assert job.standing().heats == 1


async def test_the_first_heat_of_a_cold_step_is_not_asked_about_as_one_more(shop: Shop) -> None:
    chisel = at_step_of("cold-chisel", 8)  # the edge is filed cold
    async with at_the_bench(shop, chisel) as (bench, pilot):
        await pilot.press("f2")
        await pilot.pause()
        assert answer_on(bench.coach) == "? This step needs no fire. Enter marks one, Esc does not."
        assert "Enter marks a heat" in words_on(bench.coach)
        await pilot.press("escape")
    assert chisel.standing().heats == 0
