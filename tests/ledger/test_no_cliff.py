"""The chance of a job moves with a reading; it does not leap at a limit, on either side of it."""

from __future__ import annotations

from functools import cache
from math import inf

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coach.ledger.course import HeatMark, Mark, ReadingMark
from coach.ledger.following import follow
from coach.ledger.forecast import forecast
from coach.ledger.looking_back import look_back
from coach.ledger.plan import Plan
from coach.ledger.reading import Reading
from coach.ledger.stepping import step_on
from coach.ledger.wanting import wanted
from coach.ledger.workpiece import Workpiece, at_stock
from coach.places import bundled_recipes
from coach.recipe.reader import read_recipe_file

NAMES = sorted(path.stem for path in bundled_recipes().glob("*.yaml"))
#: A hundredth of a millimetre moves the chance by no more than the steepest slope of what a gauge leaves in
#: doubt, some 0.14 mm: 0.4 / 0.14 per mm (the bell curve's own), and where the metal of a whole length hangs
#: on the reading of its section, by twice that. At a limit it leapt by up to 90 points.
MOST = 0.06


@cache
def begun(name: str) -> tuple[Plan, tuple[Workpiece, ...]]:
    """A recipe's plan, and the workpiece before each step with everything going as planned."""
    plan = look_back(read_recipe_file(bundled_recipes() / f"{name}.yaml"))
    starts = [at_stock(plan)]
    for step in plan.recipe.steps:
        starts.append(step_on(plan, starts[-1], step))
    return plan, tuple(starts)


def chance(plan: Plan, start: Workpiece, number: int, marks: list[Mark]) -> tuple[float, bool]:
    """The chance, and whether every reading is within two standard uncertainties of what was expected."""
    step = plan.recipe.steps[number - 1]
    course = follow(plan, start, step, marks, finished=False)
    surprises = [one.surprise.standardised for one in course.outcomes if one.surprise is not None]
    return forecast(plan, course, start, number).chance, all(abs(one) < 1.9 for one in surprises)


@pytest.mark.parametrize("name", NAMES)
@settings(max_examples=60)
@given(data=st.data())
def test_a_hundredth_of_a_millimetre_moves_the_chance_but_little(name: str, data: st.DataObject) -> None:
    plan, starts = begun(name)
    number = data.draw(st.integers(1, len(plan.recipe.steps)))
    step, start = plan.recipe.steps[number - 1], starts[number - 1]
    heats: list[Mark] = [HeatMark(100 + n) for n in range(data.draw(st.integers(0, step.heats)))]
    now = follow(plan, start, step, heats, finished=False).now
    asked = {}
    for check in step.checks:
        zone, dimension = check.rsplit(".", 1)
        if dimension in step.targets and dimension in now.zones[zone].shape.dimensions:
            limits, _ = wanted(plan, now, step, zone, dimension)
            if limits is not None and -inf < limits.low and limits.high < inf:
                asked[zone, dimension] = limits
    if not asked:
        return
    size = data.draw(st.sampled_from(sorted(asked)))
    marks = list(heats)
    for other, limits in asked.items():
        if other != size and data.draw(st.booleans()):
            at_mm = limits.nominal + data.draw(st.floats(-0.3, 0.3)) * (limits.high - limits.low)
            marks.append(ReadingMark(200 + len(marks), Reading(*other, at_mm, "calliper"), insisted=True))
    limits = asked[size]
    place = data.draw(st.floats(-0.4, 1.4))
    at_mm = limits.low + place * (limits.high - limits.low)
    before, after = (
        chance(plan, start, number, [*marks, ReadingMark(300, Reading(*size, mm, "calliper"), insisted=True)])
        for mm in (at_mm, at_mm + 0.01)
    )
    if before[1] and after[1]:  # what is stood by against the reckoning is another matter
        assert abs(before[0] - after[0]) < MOST
