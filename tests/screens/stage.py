"""A shop with an invented recipe in it, and the app over it, as the tests of the screens need them."""

from __future__ import annotations

from collections.abc import AsyncIterator, Callable
from contextlib import asynccontextmanager
from datetime import UTC, datetime, timedelta
from functools import partial
from itertools import count
from pathlib import Path

from textual.app import App
from textual.pilot import Pilot
from textual.screen import Screen

from coach.bench.session import Session
from coach.bench.shop import Shop
from coach.remembered import Memory
from coach.screens.app import CoachApp
from coach.screens.bench import BenchScreen
from coach.screens.widgets.answer_line import AnswerLine

SMALL = (60, 20)
COMMON = (80, 24)
ROOMY = (160, 48)

#: An invented peg: a point, a shank drawn square, a look over. Nothing here comes from a real drawing.
PEG = """\
recipe: Tent peg
units: mm
summary: A pointed peg with a square shank, made up for trying the coach out.
time: half an hour
tools:
  - hammer of about 1 kg
pieces:
  peg:
    metal: mild steel
    bar: square 12
    zones:
      point: square 8 ±0.8, long 90 ±9
      shank: square 10 ±1, long 120 ±12
steps:
  - draw: point, square 8 ±0.8, 2 heats, at light yellow
    how: Keep it square, and turn it after every blow.
    watch: Stop at dull red.
    title: Draw the point
    check: side, length
  - draw: shank, square 10 ±1, 1 heat, at yellow
    how: From the point back to the end.
    title: Draw the shank
    check: side
  - inspect: shank
    how: Sight along it.
    title: Look it over
"""


def clock() -> Callable[[], datetime]:
    """A clock that starts on an invented morning and gains two minutes each time it is read."""
    moment = datetime(2026, 3, 2, 9, 0, tzinfo=UTC)

    def now() -> datetime:
        nonlocal moment
        moment += timedelta(minutes=2)
        return moment

    return now


def a_shop(folder: Path) -> Shop:
    """A shop whose log is in this folder; whoever asks for it closes it."""
    return Shop(folder / "shop.sqlite", clock())


def a_job(shop: Shop, text: str = PEG) -> Session:
    """A job just begun."""
    return shop.begin(text, "peg.yaml")


def recipes(folder: Path, **texts: str) -> tuple[Path, ...]:
    """A folder of recipe files, each named by its keyword; the peg alone when none is given."""
    shelf = folder / "recipes"
    shelf.mkdir()
    for name, text in (texts or {"tent-peg": PEG}).items():
        (shelf / f"{name}.yaml").write_text(text, encoding="utf-8")
    return (shelf,)


@asynccontextmanager
async def on_stage(
    shop: Shop,
    session: Session | None = None,
    *,
    size: tuple[int, int] = COMMON,
    folders: tuple[Path, ...] = (),
    now: Callable[[], str] = lambda: "2026-03-02T12:00:00Z",
    memory: Memory | None = None,
) -> AsyncIterator[tuple[CoachApp, Pilot[None]]]:
    """The app without a terminal, at a fixed size, with nothing moving on it."""
    # Every look at the stopwatch is ten seconds later: a test types as unhurried as a smith.
    app = CoachApp(
        shop,
        session=session,
        folders=folders,
        now=now,
        stopwatch=partial(next, count(0.0, 10.0)),
        memory=memory,
    )
    app.animation_level = "none"
    app.burst_s = 0.0
    async with app.run_test(size=size) as pilot:
        await pilot.pause()
        yield app, pilot


@asynccontextmanager
async def at_the_bench(
    shop: Shop,
    session: Session,
    *,
    size: tuple[int, int] = COMMON,
    now: Callable[[], str] = lambda: "2026-03-02T12:00:00Z",
) -> AsyncIterator[tuple[BenchScreen, Pilot[None]]]:
    """The bench of a job, past the summary that a job under way opens with."""
    async with on_stage(shop, session, size=size, now=now) as (app, pilot):
        if not isinstance(app.screen, BenchScreen):
            await pilot.press("enter")
            await pilot.pause()
        assert isinstance(app.screen, BenchScreen)
        yield app.screen, pilot


async def resized(app: App[None], pilot: Pilot[None], width: int, height: int) -> None:
    """The window made that large, and the screen laid out in it: a busy computer does that a little later."""
    await pilot.resize_terminal(width, height)
    for _ in range(100):
        if app.screen._compositor.size == (width, height):
            break
        await pilot.pause()


async def settled(app: App[None], pilot: Pilot[None]) -> None:
    """Once the screen in front has shown all that takes it a while."""
    await pilot.pause()
    while getattr(app.screen, "is_busy", False):
        await pilot.pause()
    await pilot.pause()


def showing(app: App[None]) -> type[Screen[object]]:
    """The kind of screen that is in front."""
    return type(app.screen)


def screen_text(app: CoachApp) -> str:
    """What stands on the screen, line by line; the one place that looks inside Textual for it."""
    strips = app.screen._compositor.render_strips()
    return "\n".join(strip.text.rstrip() for strip in strips)


def words_on(app: CoachApp) -> str:
    """The screen's words with every run of blanks, line ends included, made one space."""
    return " ".join(screen_text(app).split())


def answer_on(app: CoachApp) -> str:
    """The sentence in the answer line."""
    return str(app.screen.query_one(AnswerLine).content).replace("\n", " ")
