"""How long a piece lay in the fire, by what the clock at the bench was told."""

from __future__ import annotations

from datetime import datetime

from coach.ledger.hot_work import hot_work, minutes_hot
from coach.ledger.plan import Plan


def minutes_hot_before(plan: Plan, number: int, out_before: str, in_at: str, out_at: str) -> float | None:
    """How long the piece lay hot in the fire before a heat; None where the clock was not used.

    Args:
        plan: of the job.
        number: of the step.
        out_before: when it came out of the fire before; empty where it was not in it.
        in_at: when it went in; empty where the clock was not used.
        out_at: when it came out for this heat.
    """
    if not in_at:
        return None
    steps = plan.recipe.steps
    hot = hot_work(plan, steps[number - 1]) if 0 < number <= len(steps) else None
    if hot is None:
        return None
    away = seconds_between(out_before, in_at) if out_before else None
    return minutes_hot(hot, seconds_between(in_at, out_at) / 60.0, away)


def seconds_between(earlier: str, later: str) -> float:
    """Seconds from one entry's moment to another's; 0 when a clock was put back between them."""
    return max(0.0, (datetime.fromisoformat(later) - datetime.fromisoformat(earlier)).total_seconds())
