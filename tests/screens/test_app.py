"""The app as a whole: how it ends, and that it loads no more than it shows."""

from __future__ import annotations

import os
import re
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
from textual.geometry import Size

from coach.bench.session import Session
from coach.bench.shop import Shop
from coach.log.newest import Newest
from coach.screens.app import CoachApp
from coach.screens.bench import BenchScreen
from coach.screens.choices import Choices, keep_choices, kept_choices
from coach.screens.run import run
from tests.screens.stage import COMMON, PEG, a_shop, answer_on, at_the_bench, on_stage, screen_text, showing


def test_a_fault_of_the_program_is_handed_on_and_paints_no_traceback(
    shop: Shop, job: Session, capfd: pytest.CaptureFixture[str]
) -> None:
    app = CoachApp(shop, session=job)

    def broken() -> None:
        raise ZeroDivisionError("an invented fault")

    app.call_later(broken)
    app.run(headless=True)
    assert isinstance(app.fault, ZeroDivisionError)
    assert app.return_code == 1
    assert "Traceback" not in "".join(capfd.readouterr())
    assert job.standing().last_entry == 1


async def test_the_box_has_the_focus_whatever_is_pressed(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        for press in ("tab", "f2", "f7", "down", "f6", "escape", "f1", "escape"):
            await pilot.press(press)
        assert bench.focused is not None
        assert bench.focused.id == "typed"


NEXT_LINE, COLOUR = re.compile(r"\x1b\[[0-9]+;1H"), re.compile(r"\x1b\[[0-9;]*m")


@pytest.mark.parametrize("begun", [True, False], ids=["bench", "summary"])
async def test_the_first_screen_is_given_away_as_it_is_painted(
    shop: Shop, job: Session, monkeypatch: pytest.MonkeyPatch, begun: bool
) -> None:
    if not begun:
        job.note("a small lap near the point")
    given: list[tuple[Newest, str, Size]] = []
    app = CoachApp(shop, session=job)
    app.rests_after_s = 0.01
    app.at_rest = lambda *frame: given.append(frame)
    async with app.run_test(size=COMMON) as pilot:
        await pilot.pause()
        [(newest, frame, size)] = given
        lines = [COLOUR.sub("", line).rstrip() for line in NEXT_LINE.split(frame)[1:]]
        assert "\n".join(lines) == screen_text(app)
        assert (newest, size) == (job.newest, COMMON)


def test_once_a_job_is_left_what_it_will_open_with_is_drawn_for_next_time(
    shop: Shop, job: Session, monkeypatch: pytest.MonkeyPatch
) -> None:
    given: list[tuple[Newest, str, Size]] = []
    drawing = CoachApp.run

    def work_and_leave(app: CoachApp, **how: Any) -> None:
        if how.get("headless"):
            drawing(app, **how)
        else:
            job.note("a small lap near the point")

    monkeypatch.setattr(CoachApp, "run", work_and_leave)
    assert run(shop, session=job, at_rest=lambda *frame: given.append(frame)) == 0
    [(newest, frame, _)] = given
    assert newest == job.newest
    assert "a small lap near the point" in COLOUR.sub("", frame)


def gives_its_screen_away(app: CoachApp) -> bool:
    return app.at_rest is not None


async def test_a_screen_that_was_touched_or_that_moves_is_not_given_away(
    shop: Shop, job: Session, monkeypatch: pytest.MonkeyPatch
) -> None:
    given: list[str] = []
    touched = CoachApp(shop, session=job)
    touched.at_rest = lambda *frame: given.append(frame[1])
    async with touched.run_test() as pilot:
        await pilot.press("1")
    assert not gives_its_screen_away(touched)
    job.fire()
    now = job.standing().last_at
    moving = CoachApp(shop, session=job, straight=True, now=lambda: now)
    moving.rests_after_s = 0.01
    moving.at_rest = lambda *frame: given.append(frame[1])
    async with moving.run_test() as pilot:
        await pilot.pause()
        assert isinstance(moving.screen, BenchScreen)
        assert moving.screen.moves
    assert given == []


OPEN_THE_BENCH = """
import asyncio, sys
from pathlib import Path
from tests.screens.stage import a_shop
from coach.screens.app import CoachApp
from coach.screens.bench import BenchScreen

async def main():
    with a_shop(Path(sys.argv[1])) as shop:
        app = CoachApp(shop, session=shop.open("tent-peg"))
        async with app.run_test() as pilot:
            await pilot.pause()
            assert isinstance(app.screen, BenchScreen)

asyncio.run(main())
print(*sorted({name.partition(".")[0] for name in sys.modules} & {"pint", "pydantic", "yaml"}))
"""


def test_opening_a_job_reads_no_recipe_file(tmp_path_factory: pytest.TempPathFactory) -> None:
    folder = tmp_path_factory.mktemp("lean")
    with a_shop(folder) as shop:
        shop.begin(PEG, "peg.yaml")
    done = subprocess.run(
        [sys.executable, "-c", OPEN_THE_BENCH, str(folder)], capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stderr
    assert done.stdout.strip() == ""


@pytest.mark.parametrize(("straight", "screen"), [(True, "BenchScreen"), (False, "ResumeScreen")])
async def test_a_job_under_way_opens_at_its_summary_unless_its_bench_is_asked_for(
    shop: Shop, job: Session, straight: bool, screen: str
) -> None:
    job.heat()
    app = CoachApp(shop, session=job, straight=straight)
    async with app.run_test():
        assert type(app.screen).__name__ == screen


async def test_control_c_is_answered_in_the_coachs_own_words(shop: Shop, job: Session) -> None:
    async with on_stage(shop, job) as (app, pilot):
        for place in ("bench", "history", "shop", "plan"):
            app.go(place, *(() if place == "shop" else (job,)))
            await pilot.pause()
            await pilot.press("ctrl+c")
            await pilot.pause()
            assert list(app._notifications) == []
            assert (
                answer_on(app)
                == "? Close the coach? Enter or Ctrl+C again closes it; everything entered is kept."
            )


@pytest.mark.parametrize("over", [(), ("f1",), ("ctrl+p",)], ids=["bench", "help", "palette"])
@pytest.mark.parametrize("typed", [("3", "1"), ("f6", "h", "i"), ("f6", "3", "1", "f6", "f6")])
async def test_ctrl_q_asks_before_what_is_typed_and_not_entered_is_lost(
    shop: Shop, job: Session, typed: tuple[str, ...], over: tuple[str, ...]
) -> None:
    before = job.standing().last_entry
    stands = "hi" if "h" in typed else "31"
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press(*typed, *over, "ctrl+q")
        await pilot.pause()
        told = f"? Close the coach? Ctrl+Q again closes it; “{stands}” is typed and not entered."
        assert answer_on(bench.coach) == told
        await pilot.press("escape")
        await pilot.pause()
        assert answer_on(bench.coach) == "The coach stays open."
        await pilot.press("ctrl+c")
        await pilot.pause()
        assert answer_on(bench.coach) == told.replace("Ctrl+Q", "Ctrl+C")
        await pilot.press("ctrl+q")
        await pilot.pause()
        assert bench.app._exit is True
    assert job.standing().last_entry == before


async def test_ctrl_q_closes_at_once_where_nothing_is_typed(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("3", "backspace", "ctrl+q")
        await pilot.pause()
        assert bench.app._exit is True


async def test_what_is_only_shown_is_not_said_to_be_kept(shop: Shop, job: Session) -> None:
    shop.outlasts = False  # as in the demonstration
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("ctrl+c")
        assert answer_on(bench.coach).endswith("Ctrl+C again closes it; this demonstration is thrown away.")


async def test_esc_to_control_c_stays_where_it_was_asked(shop: Shop, job: Session) -> None:
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("ctrl+c", "escape")
        await pilot.pause()
        assert showing(bench.app) is BenchScreen
        assert answer_on(bench.coach) == "The coach stays open."


def test_choices_whose_file_is_a_pipe_are_only_forgotten(tmp_path: Path) -> None:
    pipe = tmp_path / "screens.json"
    os.mkfifo(pipe)
    keep_choices(pipe, Choices())
    assert kept_choices(pipe) == Choices()
