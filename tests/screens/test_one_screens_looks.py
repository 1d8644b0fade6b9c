"""What one screen looks like does not hang on which others were opened before it."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

import coach.screens
from coach.bench.session import Session
from coach.bench.shop import Shop
from tests.screens.stage import COMMON, PEG, on_stage, recipes, screen_text
from tests.screens.test_golden_screens import under_way

STYLES = Path(coach.screens.__file__).parent

#: Each opened from the bench and left again by Escape.
OVER_THE_BENCH = ["ctrl+e", "ctrl+l", "asterisk", "f9", "plus", "ctrl+t", "ctrl+d", "f10", "f1"]


@pytest.mark.parametrize("key", OVER_THE_BENCH)
async def test_a_screen_is_the_same_after_all_the_others(
    shop: Shop, job: Session, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, key: str
) -> None:
    under_way(job)
    recipes(tmp_path, crooked=PEG.replace("- inspect", "- inspekt"), peg=PEG)
    monkeypatch.chdir(tmp_path)
    pictures = []
    for seen_before in ([], ["faults", *OVER_THE_BENCH]):
        async with on_stage(
            shop, job, size=COMMON, folders=(Path("recipes"),), now=lambda: "2026-03-02T12:00:00Z"
        ) as (app, pilot):
            if seen_before:
                await pilot.press("escape", "tab", "enter", "escape", "shift+tab", "enter")
                await pilot.pause()
            await pilot.press("enter")
            for other in seen_before[1:]:
                await pilot.press(other, "escape")
            await pilot.press(key)
            await pilot.pause()
            title = app.screen.query("#title")
            colour = title.first().styles.background if title else None
            pictures.append((screen_text(app), colour))
    fresh, used = pictures
    assert used == fresh


OWN = [path for path in sorted(STYLES.glob("*.tcss")) if path.stem != "app"]


@pytest.mark.parametrize("path", OWN, ids=lambda path: path.stem)
def test_a_screens_own_rules_name_their_screen(path: Path) -> None:
    text = re.sub(r"/\*.*?\*/|\{[^}]*\}", "|", path.read_text(encoding="utf-8"), flags=re.DOTALL)
    selectors = [one.strip() for one in re.split("[|,]", text) if one.strip()]
    assert selectors
    assert [one for one in selectors if not re.match(r"[A-Z]\w+Screen\b", one)] == []
