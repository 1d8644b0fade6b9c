"""A law: a reading on the way that fits what is read later leaves no size less known than without it."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache

import pytest
from hypothesis import Phase, assume, given, settings
from hypothesis import strategies as st

from coach.ledger.course import HeatMark, Mark, ReadingMark
from coach.ledger.following import follow
from coach.ledger.forecast import Forecast, forecast
from coach.ledger.looking_back import look_back
from coach.ledger.nominal import Stage
from coach.ledger.plan import Plan
from coach.ledger.reading import Reading
from coach.ledger.stepping import step_on
from coach.ledger.working import reshapes
from coach.ledger.workpiece import Workpiece, at_stock
from coach.operations import operation
from coach.places import bundled_recipes
from coach.recipe.model import Step
from coach.recipe.reader import read_recipe

NAMES = sorted(path.stem for path in bundled_recipes().glob("*.yaml"))
#: A size may be so much less known, as a share of its doubt: the slopes of one that is not linear are taken
#: where the belief lies, and that is elsewhere (judgement).
NO_MORE_DOUBT = 0.1
#: And a chance so much smaller: what is read on the way moves what is believed of the metal (judgement).
NO_LESS_CHANCE = 0.06


@cache
def planned(name: str) -> tuple[Plan, tuple[Workpiece, ...]]:
    """A recipe's plan, with what is believed before each of its steps, done as planned."""
    path = bundled_recipes() / f"{name}.yaml"
    plan = look_back(read_recipe(path.read_text(encoding="utf-8"), path.name))
    before = [at_stock(plan)]
    for step in plan.recipe.steps:
        before.append(step_on(plan, before[-1], step))
    return plan, tuple(before)


def hammered_steps(plan: Plan) -> list[Step]:
    """The steps that work sizes hot and ask for some of them."""
    return [
        step
        for step in plan.recipe.steps
        if step.heats
        and not operation(step.operation).FIXES
        and any(reshapes(step, name.rpartition(".")[0]) for name in step.checks)
    ]


def on_the_way(stage: Stage, share: float) -> dict[str, float]:
    """The sizes of a zone when so much of a step's work on it is done, of the metal that is planned."""
    have, left = stage.form_before.sizes_mm(), stage.form_after.sizes_mm()
    free, shape = stage.after.free, stage.after.shape
    at = dict(left)
    for name in left:
        source = shape.worked_from(name, left[name], have)
        if name != free and source is not None:
            at[name] = have[source] + share * (left[name] - have[source])
    del at[free]
    made = stage.form_after.with_sizes(at).solved(free, stage.form_after.volume_mm3())
    return made.sizes_mm()


def readings(plan: Plan, step: Step, checks: Sequence[str], share: float, first: int) -> list[Mark]:
    """These sizes of a step, read where so much of its work is done."""
    marks: list[Mark] = []
    for at, name in enumerate(checks):
        zone, _, dimension = name.rpartition(".")
        size_mm = on_the_way(plan.by_step[step.number][zone], share)[dimension]
        marks.append(ReadingMark(first + at, Reading(zone, dimension, size_mm, "calliper")))
    return marks


def came_to(name: str, step: Step, marks: Sequence[Mark], *, finished: bool) -> Forecast:
    """What is expected of the tool once these marks are made."""
    plan, before = planned(name)
    start = before[step.number - 1]
    course = follow(plan, start, step, marks, finished=finished)
    assert not any(one.questioned for one in course.outcomes), [one.mark for one in course.outcomes]
    if finished:
        return forecast(plan, None, course.now, step.number + 1)
    return forecast(plan, course, start, step.number)


@pytest.mark.parametrize("name", NAMES)
@settings(max_examples=25, phases=(Phase.generate,), derandomize=True, deadline=None)
@given(data=st.data())
def test_a_reading_on_the_way_never_leaves_less_known(name: str, data: st.DataObject) -> None:
    plan, _ = planned(name)
    steps = hammered_steps(plan)
    assume(steps)
    step = data.draw(st.sampled_from(steps), label="step")
    sizes = [
        one
        for one in step.checks
        if reshapes(step, one.rpartition(".")[0])
        and one.rpartition(".")[2] in plan.by_step[step.number][one.rpartition(".")[0]].form_after.sizes_mm()
    ]
    assume(sizes)
    some = st.lists(st.sampled_from(sizes), unique=True, min_size=1)
    early, late = data.draw(some, label="read on the way"), data.draw(some, label="read at the end")
    marked = data.draw(st.booleans(), label="whether its heats were marked")
    if (
        not marked
    ):  # what was read on the way is still so until it is read again, which shows that more was done
        late = list(dict.fromkeys((*early, *late)))
    share = data.draw(st.sampled_from([0.4, 0.6, 0.8]), label="of the way")
    finished = data.draw(st.booleans(), label="whether the step is done")
    heat: list[Mark] = [HeatMark(50)] if marked else []
    first, last = ([HeatMark(1)] if marked else []), readings(plan, step, late, 1.0, 60)
    try:
        with_it = came_to(
            name,
            step,
            [*first, *readings(plan, step, early, share, 10), *heat, *last],
            finished=finished,
        )
    except AssertionError:
        assume(False)  # what is questioned counts for nothing
    without = came_to(name, step, [*first, *heat, *last], finished=finished)
    _no_less_known(with_it, without)


def _no_less_known(with_it: Forecast, without: Forecast) -> None:
    for zone, found in without.zones.items():
        for size, other in zip(found.sizes, with_it.zones[zone].sizes, strict=True):
            was, now = size.expected.doubt, other.expected.doubt
            assert was is not None
            assert now is not None
            assert now <= was * (1.0 + NO_MORE_DOUBT) + 0.01, (zone, size.dimension, was, now)
    assert without.will_pass is not None
    assert with_it.will_pass is not None
    chances = [(one.chance, one.will_pass.chance) for one in (without, with_it) if one.will_pass]
    (was, would), (now, will) = chances
    assert now >= was - NO_LESS_CHANCE, (was, now)
    assert will >= would - NO_LESS_CHANCE, (would, will)


@pytest.mark.parametrize("finished", [False, True])
@pytest.mark.parametrize("marked", [False, True])
def test_a_hooks_tip_read_between_two_heats_is_no_less_known(*, finished: bool, marked: bool) -> None:
    plan, _ = planned("first-hook")
    step = plan.recipe.steps[1]

    def read(first: int, **sizes_mm: float) -> list[Mark]:
        return [
            ReadingMark(first + at, Reading("tip", dimension, size_mm, "calliper"))
            for at, (dimension, size_mm) in enumerate(sizes_mm.items())
        ]

    heat: list[Mark] = [HeatMark(20)] if marked else []
    early, late = (
        read(10, end_thickness=5.0, thickness=8.0, length=75.0),
        read(30, end_thickness=3.0, thickness=8.0, length=91.0),
    )
    start: list[Mark] = [HeatMark(1)]
    with_it = came_to("first-hook", step, [*start, *early, *heat, *late], finished=finished)
    without = came_to("first-hook", step, [*start, *heat, *late], finished=finished)
    _no_less_known(with_it, without)
