"""What holds all day is told in lines that are set for the place they stand in."""

from __future__ import annotations

from itertools import pairwise
from pathlib import Path

import pytest

from coach.bench.shop import Shop
from coach.screens.resume import ResumeScreen
from tests.screens.stage import on_stage, recipes, screen_text, settled, showing


@pytest.mark.parametrize("size", [(80, 24), (110, 30), (120, 40), (160, 48), (200, 60)])
async def test_every_line_of_the_care_hangs_under_its_first_word_and_none_holds_a_word_that_fell_off(
    shop: Shop, tmp_path: Path, size: tuple[int, int]
) -> None:
    async with on_stage(shop, folders=recipes(tmp_path), size=size) as (app, pilot):
        await settled(app, pilot)
        await pilot.press("enter")
        await settled(app, pilot)
        assert showing(app) is ResumeScreen
        lines = screen_text(app).split("\n")
    told = lines[lines.index(next(one for one in lines if "Before you begin" in one)) + 1 :]
    points = told[: told.index("")]
    assert sum(one.startswith("   • ") for one in points) >= 5
    assert all(one.startswith(("   • ", "     ")) for one in points)
    widest = max(map(len, points))
    for line, after in pairwise(points):
        if not after.startswith("   • "):  # its first word had no room in the line before
            assert len(line) + 1 + len(after.split()[0]) > widest - 12, (line, after)
