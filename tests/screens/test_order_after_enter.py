"""Between Enter and the painted answer nothing is done that the answer does not need."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from typing import Any

import pytest

from coach.bench import job_state, session
from coach.bench.session import Session
from coach.bench.shop import Shop
from coach.log.jobs import Log
from coach.screens.widgets.answer_line import AnswerLine
from coach.screens.widgets.pane import Pane
from tests.screens.stage import at_the_bench


@pytest.fixture
def done(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """What is done, in its order."""
    told: list[str] = []

    def watch(place: Any, name: str) -> None:
        deed: Callable[..., Any] = getattr(place, name)

        def watched(*given: Any, **named: Any) -> Any:
            told.append(name)
            return deed(*given, **named)

        monkeypatch.setattr(place, name, watched)

    for place, name in (
        (Log, "append"),
        (job_state, "follow"),
        (job_state, "forecast"),
        (session.Session, "ways_back"),
        (AnswerLine, "tell"),
        (Pane, "show"),
    ):
        watch(place, name)
    return told


async def test_one_commit_one_following_and_one_forecast_come_before_the_answer(
    shop: Shop, job: Session, done: list[str]
) -> None:
    async with at_the_bench(shop, job) as (_, pilot):
        await pilot.press("7")
        await pilot.pause()
        done.clear()
        await pilot.press("enter")
        await pilot.pause()
    until = done[: done.index("tell")]
    assert Counter(until) == Counter(["append", "follow", "forecast"])
    after = done[len(until) :]
    # All that is reckoned after the answer are the ways back, each once as if it were taken.
    before, ways = after[: after.index("ways_back")], after[after.index("ways_back") :]
    assert {"append", "follow", "forecast"} & set(before) == set()
    assert "append" not in ways
    assert ways.count("follow") == ways.count("forecast") <= 12
