"""Find: everything that can be done, each with its key, in the coach's own words."""

from __future__ import annotations

import re

import pytest

from coach.bench.session import Session
from coach.bench.shop import Shop
from coach.screens.bench import BenchScreen
from coach.screens.help import HelpScreen
from coach.screens.palette import PaletteScreen, deed_rows, deeds_on
from coach.screens.screen import GROUPS
from tests.screens.stage import ROOMY, answer_on, at_the_bench, on_stage, screen_text, showing, words_on

#: What the toolkit would say, and signs that are pictures.
NOT_OURS = (
    "Search for commands",
    "Show help panel",
    "Change theme",
    "Screenshot",
    "Maximize",
)
PICTURES = re.compile("[\U0001f000-\U0001faff]")


async def test_every_key_of_the_bench_is_found_with_its_key_and_its_words(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, _):
        offered = {deed.told: deed for deed in deeds_on(bench)}
        for binding in BenchScreen.keys_told():
            assert offered[binding.tooltip].key == binding.key_display
        assert {deed.group for deed in offered.values()} <= set(GROUPS)


async def test_at_80_by_24_no_word_of_what_can_be_done_at_the_bench_is_cut(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        rows = deed_rows(deeds_on(bench), bench.coach.size.width - 3)
        assert len(rows) > 20
        assert not [row.plain for row in rows if row.plain.endswith("…")]
        await pilot.pause()


async def test_letters_find_a_deed_and_enter_does_it_on_the_screen_below(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("ctrl+p")
        await pilot.pause()
        assert showing(bench.app) is PaletteScreen
        await pilot.press(*"count")
        await pilot.pause()
        assert "F2" in words_on(bench.coach)
        assert answer_on(bench.coach) == "Count a heat and start its clock"
        await pilot.press("enter")
        await pilot.pause()
        await pilot.pause()
        assert showing(bench.app) is BenchScreen
        assert job.standing().heats == 1


async def test_what_is_not_found_is_said_and_escape_goes_back_and_does_nothing(
    shop: Shop, job: Session
) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("ctrl+p", *"qqq")
        await pilot.pause()
        assert answer_on(bench.coach) == "! Nothing is called qqq. Backspace takes a letter back."
        await pilot.press("enter")
        assert showing(bench.app) is PaletteScreen
        await pilot.press("backspace", "backspace", "backspace")
        assert "F2" in words_on(bench.coach)
        await pilot.press("escape")
        assert showing(bench.app) is BenchScreen
    assert job.standing().last_entry == 1


async def test_the_look_is_changed_from_the_palette(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("ctrl+p", *"daylight")
        await pilot.pause()
        await pilot.press("enter")
        await pilot.pause()
        await pilot.pause()
        assert bench.app.theme == "daylight"


async def test_another_window_s_size_loses_nothing_that_was_typed(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("ctrl+p", *"undo")
        await pilot.resize_terminal(40, 12)
        await pilot.resize_terminal(80, 24)
        await pilot.pause()
        assert "find › undo█" in words_on(bench.coach)
        assert answer_on(bench.coach) == "Strike out the last entry"


@pytest.mark.parametrize("keys", [["ctrl+p"], ["f1"], ["enter", "ctrl+p"], ["enter", "f1", "end"]])
async def test_nothing_of_the_toolkit_is_said_and_no_picture_stands_for_a_word(
    shop: Shop, job: Session, keys: list[str]
) -> None:
    job.heat()
    async with on_stage(shop, job, size=ROOMY) as (app, pilot):
        await pilot.press(*keys)
        await pilot.pause()
        told = screen_text(app)
        assert [words for words in NOT_OURS if words.lower() in told.lower()] == []
        assert PICTURES.findall(told) == []
        assert "palette" not in told.lower()


async def test_the_help_groups_the_keys_by_what_the_hand_does(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job, size=ROOMY) as (bench, pilot):
        await pilot.press("f1")
        await pilot.pause()
        assert showing(bench.app) is HelpScreen
        lines = screen_text(bench.coach).splitlines()
        heads = [line.split()[0] for line in lines if re.match(r" (Fire|Step|Write|See|Go) {2}", line)]
        assert heads == [group for group in GROUPS if group in heads]
        assert "See" in heads
        await pilot.press("end")
        await pilot.pause()
        assert any(line.startswith(" Go  ") for line in screen_text(bench.coach).splitlines())
        words = words_on(bench.coach)
        for told in (
            "Ctrl+P Find anything that can be done",
            "Ctrl+Z To the shell",
            "Ctrl+Q Close the coach",
        ):
            assert told in words


async def test_ctrl_c_asks_and_once_more_leaves_with_all_that_was_entered(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("8", "enter", "ctrl+c")
        await pilot.pause()
        assert answer_on(bench.coach).startswith("? Close the coach? Enter or Ctrl+C again closes it")
        await pilot.press("ctrl+c")
        await pilot.pause()
        assert not bench.app.is_running
    assert job.standing().checks[0].reading is not None


async def test_ctrl_c_asks_anew_after_any_other_key(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("ctrl+c", "f2", "ctrl+c")
        await pilot.pause()
        assert bench.app.is_running
        assert answer_on(bench.coach).startswith("? Close the coach?")


@pytest.mark.parametrize("typed", ["change", "out", "note", "Undo", "ways back"])
async def test_the_name_that_is_typed_stands_first_and_is_chosen(
    shop: Shop, job: Session, typed: str
) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("ctrl+p", *typed)
        await pilot.pause()
        screen = bench.app.screen
        assert isinstance(screen, PaletteScreen)
        chosen = screen._found.chosen
        assert chosen is not None
        assert chosen.name == typed.capitalize()
        assert answer_on(bench.coach) == chosen.told


async def test_a_put_off_is_found_by_its_word(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("ctrl+p", *"put off")
        await pilot.pause()
        assert isinstance(screen := bench.app.screen, PaletteScreen)
        assert screen._found.chosen is not None
        assert screen._found.chosen.name == "Change"
