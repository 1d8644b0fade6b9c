"""Sizes taken half way through a step, and what they still say once there was more work."""

from __future__ import annotations

import pytest

from coach.ledger.between import read_under_way
from coach.ledger.course import HeatMark, Mark, ReadingMark
from coach.ledger.following import follow
from coach.ledger.forecast import forecast
from coach.ledger.reading import Reading
from coach.ledger.verdict import PlanState
from coach.ledger.workpiece import at_stock
from tests.ledger.recipes import DRAW, planned


def length(entry: int, size_mm: float) -> Mark:
    return ReadingMark(entry, Reading("strap", "length", size_mm, "rule"))


# By hand: 77.9 cm³ of bar at 40 × 10 mm, half way from 12 to 8 mm, is some 193 mm long; at 40 × 8 it is 240.
HALF_WAY: list[Mark] = [HeatMark(1), length(2, 193.0)]
HOME: list[Mark] = [HeatMark(3), HeatMark(4), length(5, 239.0)]


@pytest.mark.parametrize("finished", [False, True])
def test_a_length_taken_half_way_does_not_make_the_length_at_the_end_a_surprise(finished: bool) -> None:
    plan = planned(DRAW)
    course = follow(plan, at_stock(plan), plan.recipe.steps[0], [*HALF_WAY, *HOME], finished=finished)
    assert [outcome.questioned for outcome in course.outcomes] == [False, False]


@pytest.mark.parametrize("finished", [False, True])
def test_a_length_taken_half_way_says_little_of_the_metal(finished: bool) -> None:
    plan = planned(DRAW)
    step = plan.recipe.steps[0]
    start = at_stock(plan)
    usual = follow(
        plan, start, step, [m for m in HALF_WAY + HOME[:2] if isinstance(m, HeatMark)], finished=finished
    ).now.volume("strap")
    read = follow(plan, start, step, [*HALF_WAY, *HOME[:2]], finished=finished).now.volume("strap")
    assert read.value == pytest.approx(usual.value, abs=0.5 * usual.doubt)
    assert read.doubt > 0.9 * usual.doubt


def test_a_finished_section_that_was_never_read_counts_as_worked_to_its_target() -> None:
    plan = planned(DRAW)
    now = follow(plan, at_stock(plan), plan.recipe.steps[0], [*HALF_WAY, *HOME[:2]], finished=True).now
    assert now.belief.mean("strap.thickness") == pytest.approx(8.0)
    # Nineteen in twenty within 8 ±0.5 is a standard uncertainty of 0.25 mm.
    assert now.belief.doubt("strap.thickness") == pytest.approx(0.25)


def test_a_length_that_grew_without_a_heat_marked_was_worked_on() -> None:
    plan = planned(DRAW)
    marks = [length(2, 193.0), length(3, 239.0)]
    for finished in (False, True):
        course = follow(plan, at_stock(plan), plan.recipe.steps[0], marks, finished=finished)
        assert not course.outcomes[1].questioned


def thickness(entry: int, size_mm: float) -> Mark:
    return ReadingMark(entry, Reading("strap", "thickness", size_mm, "calliper"))


def test_after_more_work_a_size_may_be_half_of_its_way_from_where_it_is_going() -> None:
    plan = planned(DRAW)
    now = follow(
        plan,
        at_stock(plan),
        plan.recipe.steps[0],
        [HeatMark(1), thickness(2, 10.0), HeatMark(3)],
        finished=False,
    ).now
    assert now.belief.mean("strap.thickness") == pytest.approx(8.0)
    # Of the 2 mm from 10 to 8; what was believed before it was read moves the 10 by a few hundredths.
    assert now.belief.doubt("strap.thickness") == pytest.approx(1.0, abs=0.05)


def test_a_length_taken_twice_says_that_the_section_was_on_its_way() -> None:
    plan = planned(DRAW)
    step = plan.recipe.steps[0]
    heats: list[list[Mark]] = [[HeatMark(at)] for at in (1, 2, 3)]
    once = [*heats, [length(4, 230.0)]]
    twice = [*once, [length(5, 239.0)]]
    assert read_under_way(plan, step, once, last_heat=2) == frozenset()
    assert read_under_way(plan, step, twice, last_heat=2) == {"strap.thickness", "strap.width"}


def test_a_length_taken_before_the_last_heat_leaves_the_finished_section_at_its_target() -> None:
    plan = planned(DRAW)
    marks: list[Mark] = [HeatMark(1), HeatMark(2), length(3, 193.0), HeatMark(4)]
    now = follow(plan, at_stock(plan), plan.recipe.steps[0], marks, finished=True).now
    assert now.belief.mean("strap.thickness") == pytest.approx(8.0)
    # Nineteen in twenty within 8 ±0.5 is a standard uncertainty of 0.25 mm.
    assert now.belief.doubt("strap.thickness") == pytest.approx(0.25)


_ROUNDED = """
title: Pin
pieces:
  pin: {metal: mild steel, stock: {form: square, side: 12}}
drawing:
  pin: {form: round, diameter: 6 ±0.7, length: 170 ±35}
steps:
  - {do: draw, zone: pin, to: {side: 6.5 ±0.6}, heats: 2}
  - {do: set down, zone: pin, form: round, to: {diameter: 6 ±0.7}, heats: 2}
"""


def _side(entry: int, size_mm: float) -> Mark:
    return ReadingMark(entry, Reading("pin", "side", size_mm, "calliper"), insisted=True)


@pytest.mark.parametrize("side_mm", [5.2, 4.9])
@pytest.mark.parametrize("heats", [1, 2])
def test_a_heat_without_a_reading_forgets_nothing_that_was_read_before_another_section(
    side_mm: float, heats: int
) -> None:
    plan = planned(_ROUNDED)
    first, second = plan.recipe.steps
    drawn = follow(plan, at_stock(plan), first, [HeatMark(1), HeatMark(2), _side(3, side_mm)], finished=True)
    before = forecast(plan, None, drawn.now, second.number)
    marks = [HeatMark(4 + n) for n in range(heats)]
    course = follow(plan, drawn.now, second, marks, finished=False)
    after = forecast(plan, course, drawn.now, second.number)
    # No hammer makes a round thicker than the square that it is made of (common practice, no source).
    sizes = [found.after[second.number].size("pin", "diameter") for found in (before, after)]
    assert [size.value for size in sizes] == [pytest.approx(side_mm, abs=0.1)] * 2
    assert sizes[1].doubt == pytest.approx(sizes[0].doubt, rel=0.1)
    assert after.state is before.state is PlanState.OFF_PLAN
    assert after.chance == pytest.approx(before.chance, abs=0.02)
    done = follow(plan, drawn.now, second, marks, finished=True).now
    assert done.size("pin", "diameter").value == pytest.approx(side_mm, abs=0.1)
