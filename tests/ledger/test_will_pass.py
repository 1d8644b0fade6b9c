"""Whether a tool will pass: every size of the drawing inside both limits, the work ahead included."""

from __future__ import annotations

from math import inf

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coach.ledger.belief import Belief, Change
from coach.ledger.course import Mark, ReadingMark
from coach.ledger.following import follow
from coach.ledger.forecast import Forecast, forecast
from coach.ledger.margins import Margin
from coach.ledger.plan import Plan
from coach.ledger.reading import Reading
from coach.ledger.stepping import step_on
from coach.ledger.wanting import wanted
from coach.ledger.will_pass import HandWork, WillPass, will_pass
from coach.ledger.workpiece import Workpiece, at_stock
from coach.quantities import Limits
from tests.ledger.recipes import planned
from tests.ledger.test_no_cliff import NAMES, begun
from tests.ledger.virtual_forge import Forge
from tests.ledger.virtual_jobs import JOBS, Job

#: What a gauge leaves in doubt, 0.14 mm at the least, and the bell curve's own steepest slope, 0.4: a
#: hundredth of a millimetre of one size moves its chance by 0.03; where another of the drawing hangs on it,
#: and where it is so far off that it is less and less believed to be the hand's work, by somewhat more. At a
#: limit it would leap by ten times as much.
MOST = 0.05

STRAP = """
title: Strap
pieces:
  strap: {metal: mild steel, stock: {form: flat, width: 40, thickness: 12}}
drawing:
  strap: {form: flat, width: 40 ±1, thickness: 8 ±0.5, length: 240 ±%s, take up: length}
steps:
  - {do: draw, zone: strap, to: {thickness: 8 ±0.5, width: 40 ±1}, heats: 2}
  - {do: normalise, zone: strap, heats: 1}
"""


def passing(found: Forecast) -> WillPass:
    assert found.will_pass is not None
    return found.will_pass


def at_the_stock(plan: Plan) -> WillPass:
    return passing(forecast(plan, None, at_stock(plan), 1))


def read(**sizes_mm: float) -> list[Mark]:
    readings = (Reading("strap", name, size, "calliper") for name, size in sizes_mm.items())
    return [ReadingMark(200 + at, one, insisted=True) for at, one in enumerate(readings)]


def one_size(mean: float, doubt: float, low: float, high: float) -> tuple[Belief, Margin]:
    belief = Belief().predict({"bar.width": Change(mean, variance=doubt**2)})
    limits = Limits(0.5 * (low + high), low, high, stated=True)
    return belief, Margin("bar", "width", mean, {"bar.width": 1.0}, limits)


def test_a_hand_that_keeps_a_size_nineteen_times_in_twenty_is_told_so() -> None:
    belief, margin = one_size(20.0, 0.5, 19.0, 21.0)
    found = will_pass(belief, [margin], {"bar.width": HandWork(0.5, looked_at=False)})
    # Two standard deviations: any table of the normal distribution.
    assert found.chance == found.ceiling == pytest.approx(0.9545, abs=1e-4)
    assert found.least is not None
    assert found.least.name == "bar.width"


def test_a_size_that_is_looked_at_and_mended_is_kept_more_often() -> None:
    belief, margin = one_size(20.0, 0.5, 19.0, 21.0)
    found = will_pass(belief, [margin], {"bar.width": HandWork(0.5, looked_at=True)})
    assert 0.9545 < found.chance < 0.9545 + 0.5 * (1.0 - 0.9545)


def test_the_hand_sets_no_ceiling_on_what_no_step_works_any_more() -> None:
    belief, margin = one_size(20.9, 0.1, 19.0, 21.0)
    found = will_pass(belief, [margin], {})
    assert found.ceiling is None
    assert found.chance == pytest.approx(0.8413, abs=1e-4)  # one standard deviation, of one limit


def test_a_size_with_one_limit_keeps_the_ceiling_where_it_is() -> None:
    belief, margin = one_size(20.0, 0.5, 19.0, 21.0)
    margin = margin._replace(limits=Limits(20.0, 19.0, inf, stated=True))
    found = will_pass(belief, [margin], {"bar.width": HandWork(0.5, looked_at=False)})
    assert found.ceiling == 1.0
    assert found.chance == pytest.approx(0.9772, abs=1e-4)


@given(
    st.lists(st.tuples(st.floats(-0.8, 0.8), st.floats(0.05, 1.0), st.booleans()), min_size=1, max_size=5),
    st.floats(0.0, 2.0),
)
def test_it_is_a_chance_under_its_ceiling_and_wider_limits_never_lower_it(
    sizes: list[tuple[float, float, bool]], wider: float
) -> None:
    names = [f"bar.size_{at}" for at in range(len(sizes))]
    belief = Belief().predict(
        {
            name: Change(10.0 + off, variance=doubt**2)
            for name, (off, doubt, _) in zip(names, sizes, strict=True)
        }
    )
    ahead = {
        name: HandWork(doubt, looked_at=False)
        for name, (_, doubt, works) in zip(names, sizes, strict=True)
        if works
    }

    def told(reach: float) -> WillPass:
        limits = Limits(10.0, 10.0 - reach, 10.0 + reach, stated=True)
        margins = [
            Margin("bar", name.removeprefix("bar."), belief.mean(name), {name: 1.0}, limits) for name in names
        ]
        return will_pass(belief, margins, ahead)

    narrow, wide = told(1.0), told(1.0 + wider)
    assert 0.0 <= narrow.chance <= 1.0
    assert narrow.ceiling is None or narrow.chance <= narrow.ceiling <= 1.0
    assert narrow.chance <= wide.chance + 1e-9


def test_the_limit_that_is_offered_is_kept_nine_times_in_ten() -> None:
    # A Gaussian lies within 1.645 of its deviations nine times in ten: JCGM 100:2008, table G.1.
    belief = Belief().predict({"a.width": Change(20.0, variance=0.04)})
    margin = Margin("a", "width", 20.0, {"a.width": 1.0}, Limits(20.0, 19.8, 20.2, True))
    least = will_pass(belief, [margin], {"a.width": HandWork(0.2, False)}).least
    assert least is not None
    assert least.kept is not None
    assert least.kept.value == pytest.approx(0.33)  # 0.329, in two digits and not less
    wide = margin._replace(limits=Limits(20.0, 19.6, 20.4, True))
    sure = will_pass(belief, [wide], {"a.width": HandWork(0.2, False)}).least
    assert sure is not None
    assert sure.kept is None
    one_sided = margin._replace(limits=Limits(20.0, -inf, 20.1, True))
    half_open = will_pass(belief, [one_sided], {"a.width": HandWork(0.2, False)}).least
    assert half_open is not None
    assert half_open.kept is None
    made = will_pass(belief, [margin], {}).least
    assert made is not None
    assert made.kept is None  # no step makes it any more


@pytest.mark.parametrize("name", NAMES)
def test_every_recipe_of_the_shelf_is_told_a_chance_under_its_ceiling(name: str) -> None:
    plan, _ = begun(name)
    found = at_the_stock(plan)
    assert found.ceiling is not None
    assert 0.0 < found.chance <= found.ceiling < 1.0
    assert found.least is not None
    assert found.least.chance >= found.chance


@pytest.mark.parametrize("job", JOBS, ids=lambda job: job.name)
def test_at_the_stock_it_is_as_many_as_a_made_up_forge_keeps(job: Job) -> None:
    # The forge walks its truth in plain arithmetic, without any belief.
    tools = 600
    for at, limits in enumerate(job.limits):
        plan = planned(job.text % limits)
        told = at_the_stock(plan).chance
        came = 0
        for tool in range(tools):
            forge = Forge(np.random.default_rng((17, at, tool)), job.bars, plan.start_mm3, limits)
            for stage in job.stages:
                after = [forge.worked(work) for work in stage.works]
                for work, form in zip(stage.works, after, strict=True):
                    forge.done(work, form)
            came += all(
                wanted.contains(forge.laid.get(zone, forge.forms[zone]).size_mm(name))
                for zone, drawing in plan.recipe.drawing.items()
                for name, wanted in drawing.limits.items()
            )
        # Three standard deviations of 600 draws, and three points for what is not Gaussian.
        assert told == pytest.approx(came / tools, abs=3.0 * (0.25 / tools) ** 0.5 + 0.03)


def test_steel_that_is_laid_on_counts_with_the_sizes_that_it_went_on_with() -> None:
    job = JOBS[2]
    plan = planned(job.text % job.limits[2])
    now = at_stock(plan)
    before = forecast(plan, None, now, 1)
    for step in plan.recipe.steps[:4]:
        now = step_on(plan, now, step)
    assert now.zones["bit"].within == "blade"
    after = forecast(plan, None, now, 5)
    # Nothing was read, so that nothing is known that was not known before; but nobody has looked at its sizes
    # when their step was done, and put right what was left standing.
    assert passing(after).chance == pytest.approx(passing(before).chance, abs=0.01)
    assert passing(after).chance < passing(before).chance


def test_once_no_step_works_a_size_a_reading_near_its_limit_is_what_decides() -> None:
    plan = planned(STRAP % "40")
    first = plan.recipe.steps[0]
    done = follow(plan, at_stock(plan), first, read(thickness=7.6, width=40.0), finished=True)
    found = passing(forecast(plan, None, done.now, 2))
    assert found.ceiling is None
    assert found.least is not None
    assert found.least.name == "strap.thickness"
    assert found.chance == pytest.approx(found.least.chance, abs=0.01)


@pytest.mark.parametrize("name", NAMES)
@settings(max_examples=40)
@given(data=st.data())
def test_a_hundredth_of_a_millimetre_moves_it_but_little(name: str, data: st.DataObject) -> None:
    plan, starts = begun(name)
    number = data.draw(st.integers(1, len(plan.recipe.steps)))
    step, start = plan.recipe.steps[number - 1], starts[number - 1]
    finished = data.draw(st.booleans())
    now = follow(plan, start, step, (), finished=False).now
    asked = {}
    for check in step.checks:
        zone, dimension = check.rsplit(".", 1)
        if dimension in step.targets and dimension in now.zones[zone].shape.dimensions:
            limits, _ = wanted(plan, now, step, zone, dimension)
            if limits is not None and limits.is_two_sided:
                asked[zone, dimension] = limits
    if not asked:
        return
    size = data.draw(st.sampled_from(sorted(asked)))
    limits = asked[size]
    near = data.draw(st.sampled_from([limits.low, limits.nominal, limits.high]))
    at_mm = near + data.draw(st.floats(-0.6, 0.6))
    others = [
        ReadingMark(200 + at, Reading(*other, wide.nominal, "calliper"), insisted=True)
        for at, (other, wide) in enumerate(sorted(asked.items()))
        if other != size and data.draw(st.booleans())
    ]
    found = []
    for mm in (at_mm, at_mm + 0.01):
        mark = ReadingMark(300, Reading(*size, mm, "calliper"), insisted=True)
        course = follow(plan, start, step, [*others, mark], finished=finished)
        sure = all(
            abs(one.surprise.standardised) < 1.9 for one in course.outcomes if one.surprise is not None
        )
        if not sure:  # what is stood by against the reckoning is another matter
            return
        end: Workpiece = course.now
        found.append(
            forecast(plan, None, end, number + 1) if finished else forecast(plan, course, start, number)
        )
    before, after = (passing(one) for one in found)
    assert abs(before.chance - after.chance) < MOST
