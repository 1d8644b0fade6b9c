"""From screen to screen: the shop, the summary, the bench, the log, the plan, rest and help."""

from __future__ import annotations

from pathlib import Path
from unittest.mock import Mock

import pytest
from textual.widgets import Input

from coach.bench.session import Session
from coach.bench.shop import Shop
from coach.places import bundled_recipes
from coach.screens.bench import BenchScreen
from coach.screens.faults import FaultsScreen
from coach.screens.help import HelpScreen
from coach.screens.history import HistoryScreen
from coach.screens.plan import PlanScreen
from coach.screens.rest import RestScreen
from coach.screens.resume import ResumeScreen
from coach.screens.shop import ShopScreen
from coach.screens.widgets.answer_line import AnswerLine
from coach.screens.widgets.key_bar import KeyBar
from coach.screens.widgets.pick_list import PickList
from tests.bench.jobs import at_step_of
from tests.screens.stage import (
    COMMON,
    PEG,
    SMALL,
    a_shop,
    answer_on,
    at_the_bench,
    on_stage,
    recipes,
    settled,
    showing,
    words_on,
)


async def test_an_empty_shop_says_what_to_do(shop: Shop, tmp_path: Path) -> None:
    async with on_stage(shop, folders=recipes(tmp_path)) as (app, pilot):
        await settled(app, pilot)
        assert "No job yet. Choose a recipe below" in words_on(app)
        assert "Tent peg" in words_on(app)


async def test_who_is_new_is_told_what_to_begin_with_after_esc_too(shop: Shop, tmp_path: Path) -> None:
    async with on_stage(shop, folders=recipes(tmp_path)) as (app, pilot):
        await settled(app, pilot)
        assert "New here? Enter begins Tent peg" in words_on(app)
        await pilot.press("escape")
        await settled(app, pilot)
        assert "New here? Enter begins Tent peg" in words_on(app)


@pytest.mark.parametrize("keys", [("c", "o", "l", "d"), ("down",)])
async def test_enter_is_not_said_to_begin_what_is_not_chosen(shop: Shop, keys: tuple[str, ...]) -> None:
    async with on_stage(shop, folders=(bundled_recipes(),)) as (app, pilot):
        await settled(app, pilot)
        assert "New here? Enter begins" in words_on(app)
        await pilot.press(*keys)
        await settled(app, pilot)
        assert "New here?" not in words_on(app)


async def test_the_bench_opens_with_what_its_box_asks_for(shop: Shop) -> None:
    job = at_step_of("cold-chisel", 6)  # normalising: nothing is measured
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.pause()
        assert "Type what the gauge reads" not in words_on(bench.coach)
        assert "Nothing to measure: Enter finishes the step" in words_on(bench.coach)


async def test_a_shop_without_recipes_says_so(shop: Shop, tmp_path: Path) -> None:
    async with on_stage(shop, folders=(tmp_path / "none",)) as (app, pilot):
        await settled(app, pilot)
        assert "No recipe was found." in words_on(app)
        await pilot.press("enter", "ctrl+l", "ctrl+a", "tab")
        assert showing(app) is ShopScreen


async def test_enter_on_a_recipe_says_what_holds_all_day_and_goes_to_the_bench(
    shop: Shop, tmp_path: Path
) -> None:
    async with on_stage(shop, folders=recipes(tmp_path)) as (app, pilot):
        await pilot.press("enter")
        await pilot.pause()
        assert showing(app) is ResumeScreen
        assert "Who is about?" in words_on(app)
        assert "Zinc" in words_on(app)
        await pilot.press("enter")
        await pilot.pause()
        assert "Carbon monoxide" in words_on(app)
        await pilot.press("enter")
        await pilot.pause()
        assert showing(app) is BenchScreen
        assert "1/3 Draw the point" in words_on(app)
    assert [job.job for job in shop.jobs()] == ["tent-peg"]


async def test_enter_on_a_job_tells_where_it_stands_and_then_opens_the_bench(
    shop: Shop, job: Session, tmp_path: Path
) -> None:
    job.note("scale in the corner")
    async with on_stage(shop, folders=recipes(tmp_path)) as (app, pilot):
        await pilot.press("enter")
        await pilot.pause()
        assert showing(app) is ResumeScreen
        assert "Noted scale in the corner (step 1, 2026-03-02)" in words_on(app)
        await pilot.press("enter")
        await pilot.pause()
        assert showing(app) is BenchScreen


async def test_a_job_opens_again_where_it_was_left(tmp_path: Path) -> None:
    with a_shop(tmp_path) as shop:
        session = shop.begin(PEG, "peg.yaml")
        async with at_the_bench(shop, session) as (_, pilot):
            await pilot.press("8", "enter", "f2", "ctrl+q")
    with a_shop(tmp_path) as shop:
        session = shop.open("tent-peg")
        async with at_the_bench(shop, session) as (bench, _):
            assert "heat 1 of 2" in words_on(bench.coach)
            assert "▸ side" in words_on(bench.coach), "the heat has worked it since it was read"


async def test_a_recipe_with_faults_shows_where_they_are(shop: Shop, tmp_path: Path) -> None:
    folders = recipes(tmp_path, crooked=PEG.replace("- inspect", "- inspekt"))
    async with on_stage(shop, folders=folders, size=(160, 48)) as (app, pilot):
        assert "✗ 1 fault" in words_on(app)
        await pilot.press("enter")
        await pilot.pause()
        assert showing(app) is FaultsScreen
        line = PEG[: PEG.index("- inspect")].count("\n") + 1
        assert f"crooked.yaml:{line}:" in words_on(app).replace(" ", "")
        await pilot.press("escape")
        assert showing(app) is ShopScreen
    assert shop.jobs() == ()


async def test_a_recipe_whose_metal_does_not_balance_is_refused_in_a_sentence(
    shop: Shop, tmp_path: Path
) -> None:
    unbalanced = PEG.replace("square 10 ±1, 1 heat", "square 10 ±1, loses 100 %, 1 heat")
    async with on_stage(shop, folders=recipes(tmp_path, short=unbalanced)) as (app, pilot):
        for press in ("enter", "ctrl+l"):
            await pilot.press(press)
            await pilot.pause()
            assert showing(app) is ShopScreen
            assert answer_on(app).startswith("! Step 2, Draw the shank: ")
    assert shop.jobs() == ()


async def test_a_job_is_set_aside_and_taken_up_with_the_same_key(
    shop: Shop, job: Session, tmp_path: Path
) -> None:
    async with on_stage(shop, folders=recipes(tmp_path)) as (app, pilot):
        await pilot.press("ctrl+a")
        assert answer_on(app) == "? Set Tent peg aside? Enter or Ctrl+A again does, Esc does not."
        await pilot.press("escape")
        assert answer_on(app) == "It stays in hand."
        assert shop.open(job.job).standing().state == "under way"
        await pilot.press("ctrl+a", "ctrl+a")
        assert answer_on(app) == "Tent peg: Set aside."
        assert "· set aside" in words_on(app)
        await pilot.press("ctrl+a", "ctrl+a")
        assert answer_on(app) == "Tent peg: Brought back."
    assert shop.open(job.job).standing().state == "under way"


async def test_a_plan_is_looked_at_before_the_job_is_begun_from_it(shop: Shop, tmp_path: Path) -> None:
    async with on_stage(shop, folders=recipes(tmp_path)) as (app, pilot):
        await pilot.press("ctrl+l")
        await pilot.pause()
        assert showing(app) is PlanScreen
        assert "The finished peg" in words_on(app)
        await pilot.press("escape")
        assert showing(app) is ShopScreen
        assert shop.jobs() == ()
        await pilot.press("ctrl+l")
        await pilot.pause()
        await pilot.press("b")
        await pilot.pause()
        assert showing(app) is ResumeScreen
        await pilot.press("enter", "enter")
        await pilot.pause()
        assert showing(app) is BenchScreen
        await pilot.press("escape")
        await pilot.pause()
        assert showing(app) is ShopScreen
    assert len(shop.jobs()) == 1


async def test_the_plan_of_a_job_under_way_begins_no_other(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("ctrl+l")
        await pilot.pause()
        assert showing(bench.app) is PlanScreen
        await pilot.press("b", "escape")
        assert showing(bench.app) is BenchScreen
    assert len(shop.jobs()) == 1


async def test_escape_goes_from_the_bench_to_the_shop_and_enter_back(
    shop: Shop, job: Session, tmp_path: Path
) -> None:
    async with on_stage(shop, job, folders=recipes(tmp_path)) as (app, pilot):
        await pilot.press("escape")
        await pilot.pause()
        assert showing(app) is ShopScreen
        await pilot.press("enter")
        await pilot.pause()
        assert showing(app) is BenchScreen


async def test_an_entry_is_struck_out_in_the_log_and_brought_back(shop: Shop, job: Session) -> None:
    job.read("point.side", "8")
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("f9")
        await pilot.pause()
        assert showing(bench.app) is HistoryScreen
        assert bench.app.screen.query_one(PickList).highlighted == 1
        await pilot.press("enter")
        assert "✗ struck out: point side 8 mm" in words_on(bench.coach)
        assert job.standing().checks[0].reading is None
        await pilot.press("enter")
        assert "✗ struck out: point side" not in words_on(bench.coach)
        assert job.standing().checks[0].reading is not None
        await pilot.press("up", "enter")
        assert answer_on(bench.coach).startswith("! The beginning of a job cannot be struck out")
        await pilot.press("escape")
        await pilot.pause()
        assert "✓ good" in words_on(bench.coach)


async def test_the_log_shows_what_another_window_enters(shop: Shop, job: Session, tmp_path: Path) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("f9")
        await pilot.pause()
        log = bench.app.screen
        assert isinstance(log, HistoryScreen)
        with a_shop(tmp_path) as other:
            other.open(job.job).note("from the tablet")
        log.catch_up()
        await pilot.pause()
        assert "note: from the tablet" in words_on(bench.coach)


async def test_resting_closes_the_coach_and_resuming_is_written_down(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("f10")
        await pilot.pause()
        assert showing(bench.app) is RestScreen
        assert "The job may rest here." in words_on(bench.coach)
        await pilot.press("enter")
    assert job.standing().state == "resting"
    async with at_the_bench(shop, job) as (bench, _):
        assert answer_on(bench.coach) == "Resumed."
    assert job.standing().state == "under way"


async def test_staying_and_closing_enter_nothing(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("f10", "escape")
        assert showing(bench.app) is BenchScreen
        await pilot.press("f10", "down", "enter")
        assert showing(bench.app) is BenchScreen
        await pilot.press("f10", "down", "down", "enter")
    assert job.standing().last_entry == 1


async def test_a_job_that_may_not_rest_says_why_and_offers_to_stay_first(shop: Shop) -> None:
    text = PEG.replace("title: Draw the shank\n", "title: Draw the shank\n    rest: no\n")
    session = shop.begin(text, "peg.yaml")
    session.done()
    session.done()
    assert session.standing().rest_reason
    async with at_the_bench(shop, session) as (bench, pilot):
        await pilot.press("f10")
        await pilot.pause()
        words = words_on(bench.coach)
        assert "✗ It may not rest yet." in words
        assert str(session.standing().rest_reason).split()[-1] in words
        await pilot.press("enter")
        assert showing(bench.app) is BenchScreen
        await pilot.press("f10", "up", "enter")
    assert session.standing().state == "resting"


async def test_help_explains_the_screen_in_hand_and_lists_its_keys(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job, size=(160, 48)) as (bench, pilot):
        bench.query_one(Input).value = "8.2"
        await pilot.press("f1")
        await pilot.pause()
        assert showing(bench.app) is HelpScreen
        read = words_on(bench.coach)
        for _ in range(3):
            await pilot.press("pagedown")
            await pilot.pause()
            read = f"{read} {words_on(bench.coach)}"
        for binding in BenchScreen.keys_told():
            assert binding.tooltip in read
        await pilot.press("escape")
        assert bench.query_one(Input).value == "8.2"


async def test_a_touch_on_a_key_does_the_same_as_the_key(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        bar = bench.query_one(KeyBar)
        at = str(bar.content).index("F2")
        await pilot.click(bar, offset=(at, 0))
        assert answer_on(bench.coach) == "Heat 1 of 2 is marked."
        assert bench.query_one(Input).has_focus


@pytest.mark.parametrize("places", [[], ["f9"], ["ctrl+e"], ["escape"], ["f10"]])
async def test_the_line_of_keys_is_one_line_in_a_small_window_with_help_and_undo(
    shop: Shop, job: Session, places: list[str]
) -> None:
    async with at_the_bench(shop, job, size=SMALL) as (bench, pilot):
        await pilot.press(*places)
        await pilot.pause()
        bar = bench.coach.screen.query_one(KeyBar)
        assert bar.size.height == 1
        assert "F1" in str(bar.content)
        if not places:
            assert "F8" in str(bar.content)


async def test_a_size_typed_at_the_summary_is_taken_along_to_the_bench(shop: Shop, job: Session) -> None:
    job.heat()
    async with on_stage(shop, session=job) as (app, pilot):
        assert showing(app) is ResumeScreen
        await pilot.press("8", "comma", "3", "1", "backspace")
        assert "8,3: Enter takes it along to the bench." in words_on(app)
        await pilot.press("enter")
        await pilot.pause()
        assert showing(app) is BenchScreen
        assert app.screen.query_one(Input).value == "8,3"


async def test_before_the_first_fire_its_fumes_are_said_once_and_what_is_typed_meanwhile_is_kept(
    shop: Shop,
) -> None:
    recipe = Path(__file__).parents[2] / "recipes" / "first-hook.yaml"
    session = shop.begin(recipe.read_text(encoding="utf-8"), recipe.name)
    async with at_the_bench(shop, session) as (bench, pilot):
        app = bench.coach
        await pilot.press("f4", "f4")
        await pilot.pause()
        assert "Carbon monoxide" in words_on(app)
        await pilot.press("1", "2", "enter")
        await pilot.pause()
        assert showing(app) is BenchScreen
        assert "12" in words_on(app)


async def test_the_return_tells_what_was_left_open_before_anything_else(shop: Shop, job: Session) -> None:
    job.heat()
    job.note("scale in the corner")
    job.to_right("point: dress the lap")
    job.rest()
    later = "2026-03-05T12:00:00Z"
    async with on_stage(shop, session=job, now=lambda: later) as (app, pilot):
        assert showing(app) is ResumeScreen
        told = words_on(app)
        assert "resting, last worked 3 days ago" in told
        order = [
            "To put right point: dress the lap (step 1, 2026-03-02)",
            "Noted scale",
            "Measure first",
            "Stands",
        ]
        places = [told.index(words) for words in order]
        assert places == sorted(places)
        await pilot.resize_terminal(40, 12)
        await pilot.resize_terminal(80, 24)
        await pilot.pause()
        assert words_on(app) == told


async def test_putting_down_tells_what_can_hurt_and_then_what_is_left_open(shop: Shop, job: Session) -> None:
    job.heat()
    job.to_right("point: dress the lap")
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("f10")
        await pilot.pause()
        told = words_on(bench.coach)
        order = ["The job may rest here.", "Caution", "To put right point: dress the lap", "Measure first"]
        places = [told.index(words) for words in order]
        assert places == sorted(places)


async def test_while_the_summary_rests_what_the_bench_is_made_of_is_loaded(
    shop: Shop, job: Session, monkeypatch: pytest.MonkeyPatch
) -> None:
    loaded = Mock()
    monkeypatch.setattr("coach.screens.resume.load", loaded)
    job.heat()
    async with on_stage(shop, job) as (app, pilot):
        assert showing(app) is ResumeScreen
        await settled(app, pilot)
        loaded.assert_called_once_with("bench")
        reparsed = Mock()
        monkeypatch.setattr(app.stylesheet, "reparse", reparsed)
        await pilot.press("enter")
        await settled(app, pilot)
        assert showing(app) is BenchScreen
        reparsed.assert_not_called()


async def test_a_function_key_that_does_nothing_here_says_where_it_does(
    shop: Shop, job: Session, tmp_path: Path
) -> None:
    async with on_stage(shop, folders=recipes(tmp_path)) as (app, pilot):
        for name in ("f2", "f3", "f4", "f5", "f6", "f7", "f8", "f9", "f12"):
            app.screen.query_one(AnswerLine).tell("")
            await pilot.press(name)
            assert answer_on(app) == f"! {name.upper()} is a key of the bench. Enter opens Tent peg there."
        await pilot.press("tab", "f2")
        assert answer_on(app) == "! F2 is a key of the bench. Enter begins Tent peg there."
        await pilot.press("ctrl+l", "f9")
        assert answer_on(app) == "! F9 is a key of the bench. Esc goes back."
    assert len(shop.jobs()) == 1


async def test_in_the_ways_back_a_key_of_the_bench_is_answered(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("asterisk", "f9")
        assert answer_on(bench.coach) == "! F9 is a key of the bench. Esc goes back."


async def test_a_coach_that_waits_no_longer_to_leave_works_no_keys_off(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        before = words_on(bench.coach)
        bench.coach._give_up()
        await pilot.press("down", "f2", "8", "enter")
        await pilot.pause()
        assert words_on(bench.coach) == before
    assert not job.history()[1:]


@pytest.mark.parametrize("size", [SMALL, COMMON, (120, 40), (160, 48)])
async def test_no_key_moves_whatever_happens(shop: Shop, job: Session, size: tuple[int, int]) -> None:
    def places() -> dict[str, int]:
        line = str(bench.query_one(KeyBar).content)
        return {f"F{number}": line.find(f"F{number}\N{NO-BREAK SPACE}") for number in (2, 3, 4, 6, 7, 8, 10)}

    async with at_the_bench(shop, job, size=size) as (bench, pilot):
        before = places()
        assert -1 not in before.values()
        for pressed in (["3", "0", "enter"], ["f8"], ["f4"], ["escape"], ["f2"], ["7", "enter"]):
            await pilot.press(*pressed)
            await pilot.pause()
            ways_back = "ways\N{NO-BREAK SPACE}back" in str(bench.query_one(KeyBar).content)
            given_way = (
                {"F7", "F8"} if size == SMALL and ways_back else set()
            )  # where there is no room for both
            standing = {key: at for key, at in before.items() if key not in given_way}
            assert {key: at for key, at in places().items() if key in standing} == standing, pressed
            assert bench.query_one(KeyBar).size.height == 1


async def test_the_key_that_leads_is_told_where_there_is_room(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("3", "0", "enter")
        await pilot.pause()
        assert str(bench.query_one(KeyBar).content).endswith(
            "F12 it is so".replace(" ", "\N{NO-BREAK SPACE}")
        )
