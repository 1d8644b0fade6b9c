"""Tests of what is believed while a step is under way, and of what a step leaves alone."""

from __future__ import annotations

import pytest

from coach.ledger.course import Course, ReadingMark
from coach.ledger.following import follow
from coach.ledger.plan import Plan
from coach.ledger.reading import Reading
from coach.ledger.stepping import step_on
from coach.ledger.verdict import Verdict
from coach.ledger.workpiece import at_stock
from tests.ledger.recipes import planned

_POLL = """
title: Poll
pieces:
  poll: {metal: wrought iron, stock: {form: flat, width: 45, thickness: 35}}
drawing:
  poll: {form: square, side: 34 ±1, length: 30 ±4}
steps:
  - {do: set down, zone: poll, form: square, to: {side: 34 ±1}, heats: 2}
"""

_GROUND = """
title: Ground strap
pieces:
  strap: {metal: mild steel, stock: {form: flat, width: 40, thickness: 12}}
drawing:
  strap: {form: flat, width: 40 ±1.5, thickness: 8 ±0.5, length: 200 ±20}
steps:
  - {do: draw, zone: strap, to: {width: 40 ±1.5, thickness: 9 ±0.5}, heats: 3}
  - {do: grind, zone: strap, to: {thickness: 8 ±0.5}}
"""


def _read(plan: Plan, dimension: str, size_mm: float) -> Course:
    reading = Reading("poll", dimension, size_mm, "calliper")
    return follow(
        plan, at_stock(plan), plan.recipe.steps[0], [ReadingMark(1, reading, False)], finished=False
    )


@pytest.mark.parametrize("side_mm", [43.0, 40.0, 37.0])
def test_a_flat_half_way_to_a_square_is_more_to_go_and_not_impossible(side_mm: float) -> None:
    outcome = _read(planned(_POLL), "side", side_mm).outcomes[0]
    assert not outcome.questioned
    assert outcome.judged is not None
    assert outcome.judged.verdict is Verdict.MORE_TO_GO


def test_grinding_leaves_what_is_known_of_the_other_sizes_as_it_was() -> None:
    plan = planned(_GROUND)
    drawn = step_on(plan, at_stock(plan), plan.recipe.steps[0])
    ground = step_on(plan, drawn, plan.recipe.steps[1])
    assert ground.size("strap", "width").doubt == drawn.size("strap", "width").doubt
    assert ground.size("strap", "length").doubt == pytest.approx(drawn.size("strap", "length").doubt)
