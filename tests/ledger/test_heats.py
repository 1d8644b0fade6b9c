"""Sizes taken half way through a step, and what they still say once there was more work."""

from __future__ import annotations

import pytest

from coach.ledger.between import read_under_way
from coach.ledger.course import HeatMark, Mark, ReadingMark
from coach.ledger.following import follow
from coach.ledger.reading import Reading
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
