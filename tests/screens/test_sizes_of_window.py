"""Any size of window, and any text in a recipe, leaves the screens standing."""

from __future__ import annotations

from pathlib import Path

import pytest
from textual import events
from textual.widgets import Input

from coach.bench.session import Session
from coach.bench.shop import Shop
from coach.drawing.large import MIDDLE, TALL, Stroke, large
from coach.screens.app import CoachApp
from tests.screens.stage import PEG, at_the_bench, on_stage, recipes, resized, screen_text, settled, words_on

SIZES = [(240, 70), (120, 40), (80, 24), (60, 20), (40, 10), (20, 5), (1, 1), (80, 24)]
NASTY = "[/] [b"

#: The same peg with every text that a file can hold replaced by what markup chokes on.
_REPLACED = {
    "recipe: Tent peg": f"recipe: '{NASTY} title'\nforge: '{NASTY} forge'",
    "summary: A pointed peg with a square shank, made up for trying the coach out.": (
        f"summary: '{NASTY} sum'"
    ),
    "time: half an hour": f"time: '{NASTY} time'",
    "- hammer of about 1 kg": f"- '{NASTY} tool'",
    "title: Draw the point": f"title: '{NASTY} step'\n    caution: '{NASTY} caution'",
    "how: Keep it square, and turn it after every blow.": f"how: '{NASTY} how'",
    "watch: Stop at dull red.": f"watch: '{NASTY} watch'",
    "title: Draw the shank": f"title: '{NASTY} second'",
    "title: Look it over": f"title: '{NASTY} third'",
}
NASTY_PEG = PEG
for _plain, _nasty in _REPLACED.items():
    NASTY_PEG = NASTY_PEG.replace(_plain, _nasty)


@pytest.mark.parametrize(
    "keys",
    [
        pytest.param([], id="summary"),
        pytest.param(["enter"], id="bench"),
        pytest.param(["enter", "f9"], id="log"),
        pytest.param(["enter", "f10"], id="rest"),
        pytest.param(["enter", "ctrl+l"], id="plan"),
        pytest.param(["enter", "ctrl+l", "tab"], id="plan, steps"),
        pytest.param(["enter", "ctrl+l", "tab", "enter"], id="plan, a step"),
        pytest.param(["enter", "ctrl+e"], id="sheet"),
        pytest.param(["enter", "ctrl+d"], id="picture"),
        pytest.param(["enter", "ctrl+t"], id="haft"),
        pytest.param(["enter", "ctrl+b"], id="to put right"),
        pytest.param(["enter", "f9", "tab"], id="spare"),
        pytest.param(["enter", "f9", "c"], id="correct"),
        pytest.param(["enter", "asterisk"], id="ways back, none"),
        pytest.param(["enter", "f12", "asterisk", "enter"], id="ways back"),
        pytest.param(["f1"], id="help"),
        pytest.param(["escape"], id="shop"),
        pytest.param(["enter", "ctrl+p"], id="palette"),
    ],
)
async def test_no_size_of_window_stops_a_screen(shop: Shop, tmp_path: Path, keys: list[str]) -> None:
    session = shop.begin(NASTY_PEG, "peg.yaml")
    session.note(NASTY)
    session.to_right(NASTY)
    session.read("point.side", "30")
    folders = recipes(tmp_path, nasty=NASTY_PEG, crooked=f"recipe: '{NASTY}'\n'{NASTY}': '{NASTY}'\n")
    async with on_stage(shop, session, folders=folders) as (app, pilot):
        await pilot.press(*keys)
        await pilot.pause()
        for size in SIZES:
            await resized(app, pilot, *size)
            assert len(screen_text(app).splitlines()) <= size[1]
        assert app.is_running


def test_the_nasty_recipe_replaced_every_text() -> None:
    assert NASTY_PEG.count(NASTY) == 11


async def test_no_text_of_a_recipe_is_lost_to_markup(shop: Shop, tmp_path: Path) -> None:
    session = shop.begin(NASTY_PEG, "peg.yaml")
    async with on_stage(shop, session, size=(160, 48), folders=recipes(tmp_path, nasty=NASTY_PEG)) as (
        app,
        pilot,
    ):
        bench = words_on(app)
        for word in ("title", "step", "how", "watch", "caution", "second", "third"):
            assert f"{NASTY} {word}" in bench
        await pilot.press("ctrl+l")
        await pilot.pause()
        plan = words_on(app)
        for word in ("title", "sum", "time", "tool"):
            assert f"{NASTY} {word}" in plan
        await pilot.press("enter")
        await pilot.pause()
        for word in ("step", "how", "watch", "caution"):
            assert f"{NASTY} {word}" in words_on(app)
        await pilot.press("escape", "escape", "f10")
        await pilot.pause()
        assert f"{NASTY} title" in words_on(app)
        await pilot.press("escape", "f9")
        await pilot.pause()
        assert f"The log of {NASTY} title" in words_on(app)
        await pilot.press("escape", "escape")
        await pilot.pause()
        assert f"{NASTY} title" in words_on(app)
        await settled(app, pilot)
        await pilot.press("tab")
        await settled(app, pilot)
        assert f"{NASTY} sum" in words_on(app)


@pytest.mark.parametrize("size", [(29, 24), (80, 8), (1, 1)])
async def test_below_the_floor_the_window_asks_to_be_larger(
    shop: Shop, job: Session, size: tuple[int, int]
) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        bench.query_one(Input).value = "8.1"
        await resized(bench.coach, pilot, *size)
        await pilot.pause()
        if size != (1, 1):
            assert "Make the window larger." in words_on(bench.coach)
            assert "Step 1" not in words_on(bench.coach)
        await resized(bench.coach, pilot, 80, 24)
        await pilot.pause()
        assert bench.query_one(Input).value == "8.1"
        assert bench.query_one(Input).has_focus


@pytest.mark.parametrize("size", [(20, 6), (80, 8)])
async def test_where_nothing_can_be_seen_no_key_does_anything(
    shop: Shop, job: Session, size: tuple[int, int]
) -> None:
    """F8 struck a heat out, F2 counted one, while the window only asked to be larger."""
    job.heat()
    entries = job.standing().last_entry
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("8", ".")
        await resized(bench.coach, pilot, *size)
        await pilot.pause()
        assert "no key does anything but Ctrl+Q" in words_on(bench.coach)
        await pilot.press("f8", "f2", "f4", "f4", "9", "enter", "escape", "escape", "escape")
        bench.coach.post_message(events.Paste("9\n"))
        await pilot.pause()
        assert job.standing().last_entry == entries
        await resized(bench.coach, pilot, 80, 24)
        await pilot.pause()
        assert bench.coach.screen is bench
        assert bench.query_one(Input).value == "8."
        await pilot.press("1", "enter")
        await pilot.pause()
    assert job.standing().last_entry == entries + 1


@pytest.mark.parametrize("size", [(80, 24), (120, 40), (160, 48), (200, 60)])
async def test_the_bench_shows_all_it_must_at_once(shop: Shop, job: Session, size: tuple[int, int]) -> None:
    job.note("a lap near the end")
    job.to_right("dress the lap")
    async with at_the_bench(shop, job, size=size) as (bench, _):
        words = words_on(bench.coach)
        for essential in (
            "1/3 Draw the point",
            "heat 0 of 2",
            "fix 1 Tent peg",
            "then 2 Draw the shank",
            "Caution Hot scale flies",
            "Keep it square, and turn it after",
            "Watch Stop at dull red.",
            "dress the lap",
            "ON PLAN",
            "not read yet",
            "▸ side",
            "8 ±0.8",
            "2= length",
            "point side cold, by calliper",
            "F4 done F10 rest" if size == (80, 24) else "F10 rest",
        ):
            assert essential in words
        figure = large("8", TALL if size[1] >= 36 else MIDDLE, Stroke.HEAVY if size[0] < 150 else Stroke.WIDE)
        assert all(row in screen_text(bench.coach) for row in figure)


async def test_a_large_window_shows_the_metal_the_picture_the_steps_and_the_sizes_beside_the_work(
    shop: Shop, job: Session
) -> None:
    async with at_the_bench(shop, job, size=(160, 48)) as (bench, pilot):
        await pilot.pause()
        words = words_on(bench.coach)
        for part in ("─ Metal ─", "─ Steps ─", "─ Finished ─", "─ The peg ─", "(at least"):
            assert part in words


async def test_tab_turns_the_page_and_esc_goes_back_to_the_work(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        for page in ("Step", "Metal", "Steps", "Finished", "Learned"):
            while f"─ {page} ─" not in words_on(bench.coach):
                await pilot.press("tab")
                await pilot.pause()
            assert "ON PLAN" in words_on(bench.coach), "the face stays"
        await pilot.press("escape")
        await pilot.pause()
        assert "─ Do ─" in words_on(bench.coach)
        await pilot.press("shift+tab")
        await pilot.pause()
        assert "─ Learned ─" in words_on(bench.coach)


@pytest.mark.parametrize("size", [(60, 20), (40, 10)])
async def test_a_small_window_keeps_the_box_and_what_goes_into_it(
    shop: Shop, job: Session, size: tuple[int, int]
) -> None:
    async with at_the_bench(shop, job, size=size) as (bench, pilot):
        assert "point side cold, by" in words_on(bench.coach)
        await pilot.press("8", "enter")
        assert "point side 8 mm: good" in words_on(bench.coach)
        assert "1/3 " in words_on(bench.coach)


@pytest.mark.parametrize("size", [(60, 20), (60, 14), (100, 20), (70, 40)])
async def test_a_small_window_still_tells_the_time_of_the_heat_and_where_the_metal_stands(
    shop: Shop, job: Session, size: tuple[int, int]
) -> None:
    async with at_the_bench(shop, job, size=size, now=lambda: "2026-03-02T09:04:02Z") as (bench, pilot):
        assert "ON PLAN" in words_on(bench.coach)
        await pilot.press("f2")
        await pilot.pause()
        assert "light yellow" in words_on(bench.coach)
        await pilot.press(*"5.5", "enter", *"5.5", "enter")
        await pilot.pause()
        assert "OFF PLAN" in words_on(bench.coach)
        assert "* ways back" in words_on(bench.coach)
        assert "Accept the point side" in words_on(bench.coach)


async def test_page_down_shows_what_is_further_on(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job, size=(40, 16)) as (bench, pilot):
        assert "Watch" not in words_on(bench.coach)
        for _ in range(4):
            await pilot.press("pagedown")
        await pilot.pause()
        assert "▸ side 8 ±0.8" in words_on(bench.coach)


async def test_colours_that_are_switched_off_leave_every_word(
    shop: Shop, job: Session, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("NO_COLOR", "1")
    async with at_the_bench(shop, job) as (bench, pilot):
        app: CoachApp = bench.coach
        assert app.no_color
        await pilot.press("8", "enter")
        assert "✓ good" in words_on(app)
