"""Each screen as it is meant to look, as text, at a small size, the common one and a roomy one.

After a change that is meant, `REDRAW_SCREENS=1` in the environment writes the texts anew; look at each in the
difference before keeping it.
"""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from coach.bench.session import Session
from coach.bench.shop import Shop
from tests.screens.stage import COMMON, PEG, ROOMY, SMALL, on_stage, recipes, screen_text, settled

GOLDEN = Path(__file__).parent / "golden"


def under_way(session: Session) -> None:
    """Invented work on the peg: one step done, with a note, and the second begun."""
    session.heat()
    session.heat()
    session.read("point.side", "8.2")
    expected = next(check.expected for check in session.standing().checks if check.name == "point.length")
    assert expected is not None
    session.read("point.length", f"{expected.value:.0f}")
    session.note("a small lap near the point, to be dressed")
    session.to_right("point: dress the lap")
    session.done()
    session.heat()


PLACES = {
    "shop": ["escape"],
    "summary": [],
    "bench": ["enter"],
    "bench-working": ["enter"],
    "bench-soaking": ["enter", "f3"],
    "bench-read": ["enter", "1", "1", "enter"],
    "bench-questioned": ["enter", "3", "0", "enter"],
    "bench-asks": ["enter", "f4"],
    "bench-off-plan": ["enter", *"8.5", "enter"],
    "ways-back": ["enter", *"8.5", "enter", "asterisk"],
    "ways-back-asks": ["enter", *"8.5", "enter", "asterisk", "down", "enter"],
    "bench-noting": ["enter", "f6"],
    "log": ["enter", "f9"],
    "log-correcting": ["enter", "f9", *["up"] * 4, "c"],
    "plot": ["enter", "f9", "tab"],
    "picture": ["enter", "ctrl+d"],
    "palette": ["enter", "ctrl+p"],
    "to-put-right": ["enter", "plus"],
    "haft": ["enter", "ctrl+t"],
    "rest": ["enter", "f10"],
    "plan": ["enter", "ctrl+l"],
    "plan-steps": ["enter", "ctrl+l", "tab"],
    "plan-step": ["enter", "ctrl+l", "tab", "down", "enter"],
    "sheet": ["enter", "ctrl+e"],
    "help": ["enter", "f1"],
    "faults": ["escape", "tab", "enter"],
}


@pytest.mark.parametrize("size", [SMALL, COMMON, ROOMY], ids=lambda size: f"{size[0]}x{size[1]}")
@pytest.mark.parametrize("place", PLACES)
async def test_the_screen_looks_as_it_was_drawn(
    shop: Shop,
    job: Session,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    place: str,
    size: tuple[int, int],
) -> None:
    under_way(job)
    recipes(tmp_path, crooked=PEG.replace("- inspect", "- inspekt"), peg=PEG)
    monkeypatch.chdir(tmp_path)  # so that a fault names its file without the folder of this run
    moments = {"bench-working": "2026-03-02T09:16:08Z", "bench-soaking": "2026-03-02T09:18:20Z"}
    now = moments.get(place, "2026-03-02T12:00:00Z")
    async with on_stage(shop, job, size=size, folders=(Path("recipes"),), now=lambda: now) as (app, pilot):
        await pilot.press(*PLACES[place])
        await settled(app, pilot)
        drawn = screen_text(app).rstrip("\n") + "\n"
    assert drawn == as_it_was_drawn(place, size, drawn)


@pytest.mark.parametrize("size", [SMALL, COMMON, ROOMY], ids=lambda size: f"{size[0]}x{size[1]}")
async def test_the_sheet_of_a_finished_tool_looks_as_it_was_drawn(
    shop: Shop, job: Session, size: tuple[int, int]
) -> None:
    under_way(job)
    job.read("shank.side", "8.6")  # smaller than was drawn
    job.take("accept-shank-side")
    job.done()
    job.done()
    async with on_stage(shop, job, size=size) as (app, pilot):
        await pilot.press("enter", "ctrl+e")
        await pilot.pause()
        drawn = screen_text(app).rstrip("\n") + "\n"
    assert drawn == as_it_was_drawn("sheet-finished", size, drawn)


@pytest.mark.parametrize("size", [SMALL, COMMON, ROOMY], ids=lambda size: f"{size[0]}x{size[1]}")
async def test_a_shop_without_a_job_looks_as_it_was_drawn(
    shop: Shop, tmp_path: Path, size: tuple[int, int]
) -> None:
    recipes(tmp_path, peg=PEG)
    async with on_stage(shop, size=size, folders=(tmp_path / "recipes",)) as (app, pilot):
        await settled(app, pilot)
        drawn = screen_text(app).rstrip("\n") + "\n"
    assert drawn == as_it_was_drawn("shop-empty", size, drawn)


def as_it_was_drawn(place: str, size: tuple[int, int], drawn: str) -> str:
    """The text that is kept of a screen; what was just drawn, when that is to be kept instead."""
    golden = GOLDEN / f"{place}-{size[0]}x{size[1]}.txt"
    if os.environ.get("REDRAW_SCREENS"):
        golden.write_text(drawn, encoding="utf-8")
    return golden.read_text(encoding="utf-8")
