"""How long a piece lay in the fire, by what the clock at the bench was told."""

from __future__ import annotations

from datetime import datetime
from typing import TYPE_CHECKING

from coach.ledger.hot_work import hot_work, minutes_hot

if TYPE_CHECKING:
    from coach.bench.replay import JobState


def minutes_hot_before(state: JobState, number: int, out_at: str) -> float | None:
    """How long the piece lay hot in the fire before a heat; None where the clock was not used."""
    if not state.in_at:
        return None
    steps = state.plan.recipe.steps
    hot = hot_work(state.plan, steps[number - 1]) if 0 < number <= len(steps) else None
    if hot is None:
        return None
    away = seconds_between(state.out_at, state.in_at) if state.out_at else None
    return minutes_hot(hot, seconds_between(state.in_at, out_at) / 60.0, away)


def seconds_between(earlier: str, later: str) -> float:
    """Seconds from one entry's moment to another's; 0 when a clock was put back between them."""
    return max(0.0, (datetime.fromisoformat(later) - datetime.fromisoformat(earlier)).total_seconds())
