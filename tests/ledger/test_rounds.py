"""A law: what was read with no heat between is one account, in whatever order it was typed."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import permutations
from typing import NamedTuple

import pytest
from hypothesis import Phase, assume, given, settings
from hypothesis import strategies as st

from coach.bench.session import Session
from coach.ledger.course import Course, HeatMark, ReadingMark
from coach.ledger.following import follow
from coach.ledger.forecast import Forecast, forecast
from coach.ledger.plan import Plan
from coach.ledger.reading import Reading
from coach.ledger.working import LedgerError, reshapes
from coach.places import bundled_recipes
from coach.recipe.model import Step
from tests.bench.jobs import shop
from tests.ledger.test_more_is_known import NAMES, hammered_steps, on_the_way, planned

#: From a poll that was read to an eye whose marks were 4 mm of bar further apart than was planned.
FIRST = ("hole_length=30.5", "hole_width=9.2", "width=36.2", "slug=9g")
#: By hand: 47 · 36.2 · 29 - (30.5 - 9.2 + π/4 · 9.2) · 9.2 · 36.2 = 39 800 mm³. Its marks lie 43 mm apart;
#: of those 43 · 40 · 25 = 43 000 mm³ the slug took 9 g, and the scale of its heats the rest.
ODD = ("thickness=29", "length=47")


def eye_punched() -> Session:
    text = (bundled_recipes() / "hedging-hatchet.yaml").read_text(encoding="utf-8")
    text = text.replace("bar: 36 x 25, long 500", "bar: 40 x 25, long 180")
    job = shop().begin(text, "hedging-hatchet.yaml")
    for zone, mark in (("poll", "15.5"), ("eye", "58.5"), ("blade", "81.5"), ("bit", "104.5")):
        job.read(f"{zone}.mark", mark)
    job.done()
    job.heat()
    job.heat()
    for size in ("width=34.4", "thickness=24.3", "length=18.2"):
        job.read(f"poll.{size.split('=')[0]}", size.split("=")[1])
    job.done()
    for _ in range(3):
        job.heat()
    return job


@pytest.mark.parametrize(
    "order",
    [
        (*FIRST[:2], ODD[0], *FIRST[2:], ODD[0], ODD[1], ODD[1]),
        (*FIRST, ODD[0], ODD[1], ODD[0], ODD[1]),
        (*FIRST, ODD[1], ODD[1], ODD[0]),
        (ODD[0], ODD[0], ODD[1], ODD[1], *FIRST),
    ],
)
def test_an_eye_read_twice_is_as_it_was_read_in_whatever_order(order: Sequence[str]) -> None:
    job = eye_punched()
    for size in order:
        job.read(f"eye.{size.split('=')[0]}", size.split("=")[1])
    standing = job.standing()
    assert not standing.questioned
    assert standing.verdict == "on plan"
    expected = {one.name: one.expected.value for one in standing.checks if one.expected}
    assert expected["eye.thickness"] == pytest.approx(29.0, abs=0.5)
    assert expected["eye.length"] == pytest.approx(47.0, abs=0.5)


class Read(NamedTuple):
    """One size as it was read."""

    zone: str
    dimension: str
    size_mm: float


def account(name: str, step: Step, readings: Sequence[Read], *, finished: bool) -> tuple[Course, Forecast]:
    plan, before = planned(name)
    start = before[step.number - 1]
    marks = [ReadingMark(10 + at, Reading(*one, "calliper")) for at, one in enumerate(readings)]
    course = follow(plan, start, step, [HeatMark(1), *marks], finished=finished)
    if finished:
        return course, forecast(plan, None, course.now, step.number + 1)
    return course, forecast(plan, course, start, step.number)


def sizes_of(plan: Plan, step: Step) -> list[tuple[str, str]]:
    """The sizes of the zones that a step works and asks for."""
    zones = dict.fromkeys(name.rpartition(".")[0] for name in step.checks)
    stages = ((zone, plan.by_step[step.number].get(zone)) for zone in zones if reshapes(step, zone))
    return [(zone, size) for zone, stage in stages if stage for size in stage.form_after.sizes_mm()]


@pytest.mark.parametrize("name", NAMES)
@settings(max_examples=12, phases=(Phase.generate,), derandomize=True, deadline=None)
@given(data=st.data())
def test_the_order_of_a_round_changes_nothing(name: str, data: st.DataObject) -> None:
    """Whether its sizes go together or not, are believed or questioned, read once or twice."""
    plan, _ = planned(name)
    steps = [step for step in hammered_steps(plan) if sizes_of(plan, step)]
    assume(steps)
    step = data.draw(st.sampled_from(steps), label="step")
    sizes = sizes_of(plan, step)
    some = data.draw(st.lists(st.sampled_from(sizes), unique=True, min_size=2, max_size=4), label="sizes")
    readings: list[Read] = []
    for zone, dimension in some:
        share = data.draw(st.sampled_from([1.0, 0.7]), label="of the way")
        made_mm = on_the_way(plan.by_step[step.number][zone], share)[dimension]
        times = data.draw(st.sampled_from([1.0, 1.02, 0.95, 0.9, 1.1]), label="off by")
        readings += [Read(zone, dimension, round(made_mm * times, 2))] * data.draw(
            st.sampled_from([1, 2]), label="read so often"
        )
    finished = data.draw(st.booleans(), label="whether the step is done")
    try:
        course, ahead = account(name, step, readings, finished=finished)
    except LedgerError:
        assume(False)
    for _ in range(3):
        order = data.draw(st.permutations(readings), label="order")
        other, then = account(name, step, order, finished=finished)
        assert then.chance == pytest.approx(ahead.chance, abs=1e-6)
        for size in some:
            one, same = course.last(*size), other.last(*size)
            assert one is not None
            assert same is not None
            assert (one.questioned, one.verdict) == (same.questioned, same.verdict)
        for zone, found in ahead.zones.items():
            for mine, its in zip(found.sizes, then.zones[zone].sizes, strict=True):
                assert its.expected.value == pytest.approx(mine.expected.value, abs=1e-3)


def test_a_slip_that_is_questioned_does_not_part_what_was_read_before_it_from_what_came_after() -> None:
    """The thickness of the bolt tongs' jaw misread, then read: the length goes beside the one that counts."""
    plan, _ = planned("bolt-tongs")
    step = plan.recipe.steps[4]
    others = [Read("arm 1 jaw", "width", 20.24), Read("arm 1 jaw", "length", 37.84)]
    slip, right = Read("arm 1 jaw", "thickness", 9.36), Read("arm 1 jaw", "thickness", 11.7)
    found = [
        account("bolt-tongs", step, order, finished=False)[1].chance
        for order in permutations([slip, right, *others])
        if order.index(slip) < order.index(right)
    ]
    assert found == pytest.approx([found[0]] * len(found), abs=1e-6)
