"""How true a hand works: where it stops, how far it scatters, and what its readings say of that."""

from __future__ import annotations

import numpy as np
import pytest

from coach.ledger.course import Mark, ReadingMark
from coach.ledger.following import follow
from coach.ledger.hand import HABIT_DOUBT, USUAL_HAND, Hand, scatter_mm
from coach.ledger.margins import Margin
from coach.ledger.plan import Plan
from coach.ledger.reading import Reading
from coach.ledger.stepping import step_on
from coach.ledger.will_pass import will_pass
from coach.ledger.workpiece import Workpiece, at_stock
from coach.quantities import Limits
from tests.ledger.recipes import planned

#: Twelve times the same: a flat drawn down by half a millimetre, to limits of ±0.5.
STEPS = 12
DRAWN = """
title: Strap
pieces:
  strap: {metal: mild steel, stock: {form: flat, width: 40, thickness: 16}}
drawing:
  strap: {form: flat, width: 40 ±1, thickness: 10 ±0.5, length: 240 ±40, take up: length}
steps:
""" + "\n".join(
    f"  - {{do: draw, zone: strap, to: {{thickness: {15.5 - 0.5 * at} ±0.5}}, heats: 1}}"
    for at in range(STEPS)
)


def forged(plan: Plan, offs_mm: list[float]) -> Workpiece:
    """Each step in turn ended with its thickness read so far beside what was aimed at."""
    now = at_stock(plan)
    for step, off_mm in zip(plan.recipe.steps, offs_mm, strict=False):
        size_mm = step.targets["thickness"].nominal + off_mm
        marks: list[Mark] = [
            ReadingMark(1, Reading("strap", "thickness", size_mm, "calliper"), insisted=True)
        ]
        now = follow(plan, now, step, marks, finished=True).now
    return now


def test_before_anything_was_read_a_hand_scatters_as_usual() -> None:
    assert USUAL_HAND.mean_square == USUAL_HAND.factor == 1.0


def test_a_size_nobody_read_lies_within_its_limits_nineteen_times_in_twenty() -> None:
    # Half the width is two standard deviations, the habit included.
    plan = planned(DRAWN)
    now = step_on(plan, at_stock(plan), plan.recipe.steps[0])
    limits = plan.recipe.steps[0].targets["thickness"]
    assert now.belief.doubt("strap.thickness") == pytest.approx(limits.width / 4.0, rel=1e-6)


def test_landing_on_the_spot_makes_a_hand_truer_and_landing_wide_less_true() -> None:
    plan = planned(DRAWN)
    assert forged(plan, [0.0] * STEPS).hand.factor < 0.75
    assert forged(plan, [0.45, -0.45] * (STEPS // 2)).hand.factor > 1.15


@pytest.mark.parametrize("truth", [0.6, 1.0, 1.6])
def test_what_is_learned_of_the_scatter_comes_near_the_truth(truth: float) -> None:
    random = np.random.default_rng(3)
    hand = USUAL_HAND
    for off in random.normal(0.0, truth * 0.4, 60):
        hand = hand.having_landed(float(off), 0.4, 0.0, 0.0)
    assert hand.factor == pytest.approx(truth, rel=0.25)


def test_one_slip_does_not_make_a_hand_loose() -> None:
    hand = USUAL_HAND
    for _ in range(6):
        hand = hand.having_landed(0.1, 0.4, 0.0, 0.0)
    # Three times as far off as the usual hand is once in twenty.
    assert hand.having_landed(2.4, 0.4, 0.0, 0.0).factor < 1.75 * hand.factor


def test_a_landing_that_is_not_the_hand_s_own_teaches_by_its_share() -> None:
    whole = USUAL_HAND.having_landed(1.0, 0.4, 0.0, 0.0)
    half = USUAL_HAND.having_landed(1.0, 0.4, 0.0, 0.0, 0.5)
    assert 1.0 < half.factor < whole.factor
    assert USUAL_HAND.having_landed(1.0, 0.4, 0.0, 0.0, 0.0).factor == pytest.approx(1.0)


def test_weights_stay_chances_however_far_off_a_size_lies() -> None:
    hand: Hand = USUAL_HAND
    for off in (0.0, 1e-9, 3.0, 1e4):
        hand = hand.having_landed(off, 0.25, 0.0, 0.0)
        assert sum(hand.weights) == pytest.approx(1.0)
        assert min(hand.weights) >= 0.0


def test_stopping_as_soon_as_the_limit_is_reached_is_learned_as_a_habit() -> None:
    # Drawn down it comes from above, so that it stops above what is aimed at.
    plan = planned(DRAWN)
    inside, middle = forged(plan, [0.4] * STEPS), forged(plan, [0.0] * STEPS)
    assert inside.hand.habit > 0.2  # of 0.8, for a habit so far out is hardly believed
    assert abs(middle.hand.habit) < 0.1
    assert middle.hand.habit_variance < 0.8 * HABIT_DOUBT**2


def test_a_size_read_near_its_limit_is_believed_nearer_to_what_was_aimed_at() -> None:
    plan = planned(DRAWN)
    last = plan._replace(recipe=plan.recipe._replace(steps=plan.recipe.steps[:1]))
    now = forged(last, [0.45])
    belief, landed = now.belief, now.hand.landed["strap.thickness"]
    assert landed.size_mm == pytest.approx(15.5)
    assert landed.variance_mm2**0.5 == pytest.approx(0.25, rel=0.02)
    # The belief itself goes by the reading.
    assert belief.mean("strap.thickness") == pytest.approx(15.95, abs=0.03)
    limits = plan.recipe.steps[0].targets["thickness"]
    margin = Margin("strap", "thickness", belief.mean("strap.thickness"), {"strap.thickness": 1.0}, limits)
    by_hand, bare = (will_pass(belief, [margin], {}, known).chance for known in (now.hand.landed, {}))
    assert by_hand > bare + 0.1


def test_how_the_hand_works_counts_once_however_often_a_size_is_read() -> None:
    plan = planned(DRAWN)
    step = plan.recipe.steps[0]
    marks: list[Mark] = [
        ReadingMark(at, Reading("strap", "thickness", 15.9, "calliper"), insisted=True) for at in range(1, 7)
    ]
    once = follow(plan, at_stock(plan), step, marks[:1], finished=True).now.hand.landed["strap.thickness"]
    often = follow(plan, at_stock(plan), step, marks, finished=True).now.hand.landed["strap.thickness"]
    assert often.size_mm == once.size_mm == pytest.approx(15.5)
    assert often.variance_mm2 == pytest.approx(once.variance_mm2, rel=0.1)


def test_while_a_step_goes_on_a_reading_says_nothing_of_where_the_hand_stops() -> None:
    plan = planned(DRAWN)
    mark = ReadingMark(1, Reading("strap", "thickness", 15.9, "calliper"), insisted=True)
    going = follow(plan, at_stock(plan), plan.recipe.steps[0], [mark], finished=False).now
    assert going.hand == USUAL_HAND


def test_a_size_that_was_past_its_target_before_is_no_work_of_this_step() -> None:
    plan = planned(DRAWN)
    first, second = plan.recipe.steps[:2]
    past: list[Mark] = [ReadingMark(1, Reading("strap", "thickness", 14.0, "calliper"), insisted=True)]
    now = follow(plan, at_stock(plan), first, past, finished=True).now
    again = follow(plan, now, second, past, finished=True).now
    assert again.hand.weights == now.hand.weights
    assert again.hand.habit == now.hand.habit
    assert "strap.thickness" not in again.hand.landed


def test_what_a_later_step_works_is_no_more_where_the_hand_has_landed() -> None:
    plan = planned(DRAWN)
    first, second = plan.recipe.steps[:2]
    mark: list[Mark] = [ReadingMark(1, Reading("strap", "thickness", 15.6, "calliper"), insisted=True)]
    now = follow(plan, at_stock(plan), first, mark, finished=True).now
    assert "strap.thickness" in now.hand.landed
    assert "strap.thickness" not in step_on(plan, now, second).hand.landed


def test_a_size_without_limits_scatters_by_two_in_a_hundred() -> None:
    bare = Limits(50.0, 50.0, 50.0, stated=False)
    assert scatter_mm(bare, 50.0) == pytest.approx(1.0)
    assert scatter_mm(None, 5.0) == pytest.approx(0.3)


def test_what_is_handed_on_of_a_hand_that_nothing_is_known_of_is_the_usual() -> None:
    known = USUAL_HAND.known
    assert known.hand.mean_square == pytest.approx(1.0, rel=0.02)
    assert (known.habit, known.habit_doubt) == (0.0, HABIT_DOUBT)


def test_a_hand_is_handed_on_as_it_was_and_a_little_less_surely() -> None:
    hand = USUAL_HAND
    random = np.random.default_rng(5)
    for off in random.normal(0.0, 0.5 * 0.4, 30):
        hand = hand.having_landed(float(off), 0.4, 0.8, 0.0)
    then = hand.known.hand
    assert then.factor == pytest.approx(hand.factor, rel=0.1)
    assert then.habit == hand.habit
    assert then.habit_doubt > hand.habit_doubt
    assert then.sizes == 0.0
