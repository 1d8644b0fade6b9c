"""What a free size is wanted to be, by hand."""

from __future__ import annotations

import pytest

from coach.ledger.wanting import wanted
from coach.ledger.workpiece import at_stock
from tests.ledger.recipes import NEIGHBOURS, planned


def test_a_mark_may_be_three_of_its_doubts_away() -> None:
    plan = planned(NEIGHBOURS)
    limits, _ = wanted(plan, at_stock(plan), plan.recipe.steps[0], "far", "length")
    assert limits is not None
    # A mark holds to ±0.7 mm, one standard uncertainty (common practice, no source).
    assert limits.nominal == pytest.approx(plan.bar_of("far").size_mm("length"))
    assert (limits.low, limits.high) == pytest.approx((limits.nominal - 2.1, limits.nominal + 2.1))


def test_an_allowance_may_be_used_up() -> None:
    bar = """
title: Bar
pieces:
  bar: {metal: mild steel, stock: {form: square, side: 20}}
drawing:
  bar: {form: square, side: 10 ±0.5, length: 400 ±20, take up: length, allowance: 25 %}
scale: none
steps:
  - {do: straighten, zone: bar, heats: 1}
  - {do: draw, zone: bar, to: drawing, heats: 3}
"""
    plan = planned(bar)
    limits, _ = wanted(plan, at_stock(plan), plan.recipe.steps[0], "bar", "length")
    assert limits is not None
    # 10 × 10 × 400 and a quarter of it on top are 125 mm of 20 square; 10 × 10 × 380 is the least: 95 mm.
    assert (limits.nominal, limits.low) == pytest.approx((125.0, 95.0), rel=1e-6)
