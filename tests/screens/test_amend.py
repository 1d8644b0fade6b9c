"""The recipe's changed file at the bench: looked at first, then followed, and taken back by Undo."""

from __future__ import annotations

from pathlib import Path

import pytest
from textual.widgets import Input

from coach.bench.session import Session
from coach.bench.shop import Shop
from coach.screens.amend import AmendScreen
from tests.bench.test_file_amended import TOOL, changed
from tests.screens.stage import a_job, answer_on, at_the_bench, showing, words_on


def steps(session: Session) -> int:
    return len(session.recipe.steps)


@pytest.mark.parametrize("size", [(80, 24), (40, 12), (160, 48)])
async def test_a_changed_file_is_looked_at_then_followed_and_undone(
    shop: Shop, tmp_path: Path, size: tuple[int, int]
) -> None:
    session = a_job(shop, TOOL)
    session.done()
    path = tmp_path / "strap.yaml"
    path.write_text(changed("  - draw: tang", "  - inspect: blade\n  - draw: tang"), encoding="utf-8")
    async with at_the_bench(shop, session, size=size) as (bench, pilot):
        await pilot.press("ctrl+f")
        await pilot.pause()
        assert showing(pilot.app) is AmendScreen
        pilot.app.screen.query_one(Input).value = str(path)
        await pilot.press("enter")
        await pilot.pause()
        assert "Inspect the blade: added" in words_on(bench.coach)
        assert steps(session) == 4
        await pilot.press("escape", "enter", "enter")  # back to its name, then on again
        await pilot.pause()
        assert bench.coach.screen is bench
        assert steps(session) == 5
        await pilot.press("f8")
        assert steps(session) == 4


async def test_a_file_that_is_not_there_or_has_faults_is_told_in_one_line(shop: Shop, tmp_path: Path) -> None:
    session = a_job(shop, TOOL)
    async with at_the_bench(shop, session) as (bench, pilot):
        await pilot.press("ctrl+f")
        await pilot.pause()
        pilot.app.screen.query_one(Input).value = str(tmp_path / "none.yaml")
        await pilot.press("enter")
        await pilot.pause()
        assert "There is no recipe file" in answer_on(bench.coach)
        path = tmp_path / "strap.yaml"
        path.write_text(changed("draw: tang", "drow: tang"), encoding="utf-8")
        pilot.app.screen.query_one(Input).value = str(path)
        await pilot.press("enter")
        await pilot.pause()
        assert "strap.yaml:" in answer_on(bench.coach)
        assert showing(pilot.app) is AmendScreen


async def test_the_name_of_another_file_is_typed_in_the_place_of_the_one_that_stands_there(
    shop: Shop,
) -> None:
    session = a_job(shop, TOOL)
    async with at_the_bench(shop, session) as (_, pilot):
        await pilot.press("ctrl+f")
        await pilot.pause()
        box = pilot.app.screen.query_one(Input)
        assert box.value
        await pilot.press("s", "2")
        assert box.value == "s2"
