"""Figures of a study, from its moments alone."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import NamedTuple

from coach.ledger.verdict import PlanState
from tests.worlds.study import Moment

#: Two-sided 90 %.
GUARD = 1.645
BINS = (0.0, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1.0)


class Figures(NamedTuple):
    """What a world's moments say. Shares; NaN where nothing stands behind one."""

    tools: int
    on_plan: float  # of all moments, told so
    on_plan_true: float  # of those, that were so
    false_alarms: float  # of those told off plan, that were not
    alarms: float  # of all moments, those that were told off plan and were not
    missed: float  # of all moments, told on plan that were off
    so_far_brier: float
    told_at_stock: float  # that they will pass, mean
    passed: float
    brier: float  # of will pass
    brier_at_end: float
    scale_off: float  # the learned factor less the true one, mean, at the end
    scale_cover: float  # the 90 % interval holds the true one


def figures(moments: Sequence[Moment]) -> Figures:
    """All of them."""
    on_plan = [one for one in moments if one.verdict is PlanState.ON_PLAN]
    off_plan = [one for one in moments if one.verdict is PlanState.OFF_PLAN]
    ends = [one for one in moments if one.is_last]
    stocks = [one for one in moments if one.steps_done == 0]
    return Figures(
        len(ends),
        len(on_plan) / len(moments),
        _mean(one.was_so for one in on_plan),
        _mean(one.was_so for one in off_plan),
        sum(one.was_so for one in off_plan) / len(moments),
        sum(not one.was_so for one in on_plan) / len(moments),
        _mean((one.chance - one.was_so) ** 2 for one in moments),
        _mean(one.will_pass for one in stocks),
        _mean(one.passed for one in ends),
        _mean((one.will_pass - one.passed) ** 2 for one in moments),
        _mean((one.will_pass - one.passed) ** 2 for one in ends),
        _mean(one.scale[0] - one.true_scale for one in ends),
        _mean(abs(one.scale[0] - one.true_scale) <= GUARD * one.scale[1] for one in ends),
    )


def _mean(of: object) -> float:
    values = [float(one) for one in of]  # type: ignore[attr-defined]
    return sum(values) / len(values) if values else float("nan")


class Bin(NamedTuple):
    """The moments whose told chance lies between two bounds."""

    low: float
    high: float
    moments: int
    told: float
    true: float


def bins(told: Sequence[tuple[float, bool]]) -> list[Bin]:
    """What was told and what came true, by tenths."""
    rows = []
    for low, high in pairwise(BINS):
        inside = [one for one in told if low <= one[0] < high or one[0] == high == 1.0]
        if inside:
            rows.append(Bin(low, high, len(inside), _mean(t for t, _ in inside), _mean(c for _, c in inside)))
    return rows
