"""A day of twelve hours at the bench, gone through as fast as may be, and the memory held after each hour."""

from __future__ import annotations

import asyncio
import gc
import tempfile
from collections.abc import Iterator
from pathlib import Path

from coach.screens.bench import BenchScreen
from tests.screens.stage import ROOMY, a_job, a_shop, on_stage

HOURS = 12
#: How often in an hour the bench looks at its clock and for what others entered, and is written at.
_TICKS, _LOOKS, _NOTES = 7200, 1800, 20


def held_mb() -> float:
    """The memory that this process holds, in megabytes. Needs Linux."""
    gc.collect()
    pages = int(Path("/proc/self/statm").read_text(encoding="ascii").split()[1])
    return pages * 4096 / 1e6


async def day(hours: int) -> list[float]:
    """The memory held after each hour, in megabytes."""
    found = []
    with tempfile.TemporaryDirectory() as name, a_shop(Path(name)) as shop:
        async with on_stage(shop, a_job(shop), size=ROOMY) as (app, pilot):
            while not isinstance(app.screen, BenchScreen):
                await pilot.press("enter")
            bench = app.screen
            for _ in range(hours):
                for at in range(_TICKS):
                    bench.tick()
                    if at % (_TICKS // _LOOKS) == 0:
                        bench.catch_up()
                    if at % (_TICKS // _NOTES) == 0:
                        await pilot.press("f6", "o", "k", "enter")
                        await pilot.press("f8")
                        await pilot.press("f1")
                        await pilot.press("escape")
                    if at % 600 == 0:
                        await pilot.pause()
                found.append(held_mb())
    return found


def report(hours: int = HOURS) -> Iterator[str]:
    """A line of what was held, and of what each entry has added since the second hour."""
    held = asyncio.run(day(hours))
    told = " ".join(f"{one:.1f}" for one in held)
    yield f"a day at the bench, memory by the hour: {told} MB"
    entries = 2 * _NOTES * (hours - 2)
    yield f"from the second hour to the last {held[-1] - held[1]:+.1f} MB, with {entries} entries made"
