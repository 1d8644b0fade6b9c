"""Keys pressed at the screens, in any order."""

from __future__ import annotations

import asyncio
import tempfile
from pathlib import Path

from hypothesis import strategies as st

from tests.screens.stage import a_job, a_shop, on_stage, recipes

_NAMED = """
    f1 f2 f3 f4 f5 f6 f7 f8 f9 f10 f11 f12 enter tab shift+tab escape up down left right home end pageup
    pagedown delete backspace space 8 1 0 3 . / = ? - + * x a n question_mark slash ctrl+r ctrl+p ctrl+l
    ctrl+z ctrl+t
"""
_KEYS = _NAMED.split()
_SIZES = st.sampled_from([(60, 20), (80, 24), (160, 48), (20, 5)])
VALUES = st.tuples(_SIZES, st.booleans(), st.lists(st.sampled_from(_KEYS), min_size=3, max_size=25))


def check(value: tuple[tuple[int, int], bool, list[str]]) -> None:
    """Press them; the app still stands, or was closed in order, and the log is sound."""
    asyncio.run(_press(*value))


async def _press(size: tuple[int, int], at_a_job: bool, keys: list[str]) -> None:
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        with a_shop(folder) as shop:
            job = a_job(shop)
            async with on_stage(shop, job if at_a_job else None, size=size, folders=recipes(folder)) as (
                app,
                pilot,
            ):
                for key in keys:
                    if not app.is_running:
                        break
                    await pilot.press(key)
                await pilot.pause()
            assert app.return_code in (0, None)
        with a_shop(folder) as again:
            assert again.log.verify() == []
            assert all(not one.trouble for one in again.jobs())
