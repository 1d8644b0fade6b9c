"""The step in hand as it will be when it is done."""

from __future__ import annotations

import pytest

from coach.ledger.course import Course, HeatMark, Mark, ReadingMark
from coach.ledger.finishing import as_read, finished_course
from coach.ledger.following import follow
from coach.ledger.plan import Plan
from coach.ledger.reading import Reading
from coach.ledger.workpiece import Workpiece, at_stock
from tests.ledger.recipes import planned

GROUND = """
title: Bar
pieces:
  bar: {metal: mild steel, stock: {form: flat, width: 40, thickness: 12}}
drawing:
  bar: {form: flat, width: 40 ±2, thickness: 10 ±0.3, length: 100 ±5, take up: length}
steps:
  - {do: grind, zone: bar, to: {thickness: 10 ±0.3}}
"""

#: A hot cut in two heats of a bar that is too short for it.
CUT = """
title: Bar
pieces:
  bar: {metal: mild steel, stock: {form: square, side: 20, length: 90}}
drawing:
  bar: {form: square, side: 20 ±1, length: 100 ±5, take up: length}
steps:
  - {do: cut, zone: bar, to: {length: 100 ±5}, heats: 2}
"""


def course_of(plan: Plan, *marks: Mark) -> Course:
    return follow(plan, at_stock(plan), plan.recipe.steps[0], marks, finished=False)


def finished(plan: Plan, course: Course) -> Workpiece:
    return finished_course(plan, course, as_read(plan, course))


def thickness(entry: int, size_mm: float) -> Mark:
    return ReadingMark(entry, Reading("bar", "thickness", size_mm, "calliper"))


def test_what_is_still_to_be_ground_off_comes_off() -> None:
    plan = planned(GROUND)
    half = course_of(plan, thickness(1, 11.0))
    assert half.now.size("bar", "thickness").value == pytest.approx(11.0, abs=0.1)
    done = finished(plan, half)
    assert done.size("bar", "thickness").value == pytest.approx(10.0)
    # The metal goes with it: 40 mm by what the length and the 1 mm come to.
    lost = half.now.volume_mm3("bar") - done.volume_mm3("bar")
    assert lost == pytest.approx(40.0 * 100.0 * 1.0, rel=0.15)


def test_a_size_that_is_ground_to_its_limits_stays_as_it_was_read() -> None:
    plan = planned(GROUND)
    done = finished(plan, course_of(plan, thickness(1, 11.0), thickness(2, 10.1)))
    assert done.size("bar", "thickness").value == pytest.approx(10.1, abs=0.1)


def test_the_heats_that_a_short_bar_still_takes_at_its_cut_take_their_scale() -> None:
    plan = planned(CUT)
    before, behind = (course_of(plan, *marks) for marks in ((), (HeatMark(1), HeatMark(2))))
    # By hand: 0.03 mm in each of two heats off four sides of 20 mm and two ends of a bar 90 mm long.
    scale_mm3 = 2 * 0.03 * (4 * 20.0 * 90.0 + 2 * 20.0**2)
    whole = before.start.volume_mm3("bar")
    assert whole - finished(plan, before).volume_mm3("bar") == pytest.approx(scale_mm3, rel=0.01)
    assert whole - finished(plan, behind).volume_mm3("bar") == pytest.approx(scale_mm3, rel=0.01)
