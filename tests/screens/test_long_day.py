"""What was shown and is gone leaves nothing behind, however long the bench lies open."""

from __future__ import annotations

import gc

from textual._styles_cache import StylesCache

from coach.bench.session import Session
from coach.bench.shop import Shop
from tests.screens.stage import on_stage


def painted_with() -> int:
    gc.collect()
    return sum(isinstance(held, StylesCache) for held in gc.get_objects())


async def test_screens_laid_over_the_bench_and_taken_off_leave_nothing_that_they_were_painted_with(
    shop: Shop, job: Session
) -> None:
    async with on_stage(shop, job) as (_, pilot):
        counts = []
        for _ in range(3):
            for key in ("f1", "escape", "f7", "escape"):
                await pilot.press(key)
                await pilot.pause()
            counts.append(painted_with())
        assert counts[2] <= counts[1]
