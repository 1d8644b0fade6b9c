"""Metal that goes over a shoulder: what a zone has more its neighbour has less."""

from __future__ import annotations

from math import sqrt

import pytest

from coach.ledger.belief import Belief, Change
from coach.ledger.plan import Plan
from coach.ledger.stepping import step_on
from coach.ledger.wander import WANDER_SHARE, wandered
from coach.ledger.workpiece import at_stock, volume_name
from tests.ledger.recipes import planned

BAR = """
recipe: Two zones
pieces:
  pin:
    metal: mild steel
    bar: 20 x 20, long 400
    zones:
      tang: 20 ±1 x 20 ±1, long 60 ±6
      body: 16 ±1 x 16 ±1, long 80 ±8
      end: 20 ±1 x 20 ±1, long 50 ±6
steps:
  - draw: body, 2 heats
  - cut: end, cold, kerf 2
"""


def _doubts(plan: Plan, belief: Belief) -> dict[str, float]:
    return {zone: belief.doubt(volume_name(zone)) for zone in plan.recipe.drawing}


def test_what_one_quantity_gives_by_chance_the_other_takes() -> None:
    # By hand: variances 4 and 9, covariance 1; 0.25 goes from one to the other, the variance of their sum,
    # 4 + 9 + 2 · 1 = 15, stays.
    change = {
        "one": Change(10.0, variance=3.0),
        "both": Change(0.0, variance=1.0),
        "other": Change(20.0, variance=8.0),
    }
    belief = Belief().predict(change)
    belief = belief.predict(
        {"one": Change(10.0, {"one": 1, "both": 1}), "other": Change(20.0, {"other": 1, "both": 1})}
    )
    moved = belief.exchanged("one", "other", 0.25)
    assert moved.variance("one") == pytest.approx(4.25)
    assert moved.variance("other") == pytest.approx(9.25)
    assert moved.covariance("one", "other") == moved.covariance("other", "one") == pytest.approx(0.75)
    assert moved.variance_of({"one": 1.0, "other": 1.0}) == pytest.approx(15.0)


def test_a_zone_that_is_hammered_pushes_metal_over_both_of_its_shoulders() -> None:
    plan = planned(BAR)
    start = at_stock(plan)
    moved = wandered(plan, start, plan.recipe.steps[0])
    before, after = _doubts(plan, start.belief), _doubts(plan, moved.belief)
    volumes = {zone: start.belief.mean(volume_name(zone)) for zone in before}
    to_tang, to_end = (WANDER_SHARE * min(volumes["body"], volumes[zone]) for zone in ("tang", "end"))
    assert after["tang"] == pytest.approx(sqrt(before["tang"] ** 2 + to_tang**2))
    assert after["end"] == pytest.approx(sqrt(before["end"] ** 2 + to_end**2))
    assert after["body"] == pytest.approx(sqrt(before["body"] ** 2 + to_tang**2 + to_end**2))
    whole = {volume_name(zone): 1.0 for zone in before}
    assert moved.belief.variance_of(whole) == pytest.approx(start.belief.variance_of(whole))


def test_a_saw_pushes_nothing_over() -> None:
    plan = planned(BAR)
    drawn = step_on(plan, at_stock(plan), plan.recipe.steps[0])
    assert wandered(plan, drawn, plan.recipe.steps[1]).belief is drawn.belief
