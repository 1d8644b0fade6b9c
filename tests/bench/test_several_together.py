"""Sizes of which each is likely enough inside, and all of them together are not: none of them is blamed."""

from __future__ import annotations

from coach.bench.session import Session
from coach.ledger.verdict import ON_PLAN_CHANCE, PlanState, Reason, SizeState
from coach.telling.why import stands_text
from coach.telling.writing import METRIC
from tests.bench.jobs import at_step_of


def tang_set_down() -> Session:
    """A drawknife whose left tang came a little thin; nobody has touched the right one yet."""
    job = at_step_of("drawknife", 1)
    for zone, mark in (("left_tang", "40.5"), ("blade", "245.5"), ("right_tang", "286.5")):
        job.read(f"{zone}.mark", mark)
    job.done()
    job.heat()
    job.heat()
    for name, size in (("width", "13.5"), ("thickness", "5.8"), ("length", "86")):
        job.read(f"left_tang.{name}", size)
    return job


def test_a_zone_that_is_likely_right_is_told_as_the_least_sure_of_several() -> None:
    job = tang_set_down()
    standing = job.standing()
    assert standing.verdict is PlanState.TIGHT
    assert all(size.state is SizeState.GOOD for size in standing.sizes)
    assert isinstance(standing.reason, Reason)
    least = min(one.chance for one in standing.spares)
    assert least >= ON_PLAN_CHANCE  # no zone by itself
    told = stands_text(standing, METRIC)
    assert "not all of them together" in told
    assert "decides" not in told


def test_none_of_them_is_asked_for_as_the_one_that_decides() -> None:
    job = tang_set_down()
    assert not [check.name for check in job.standing().checks if check.zone != "left tang"]


def test_a_size_read_outside_that_comes_inside_is_told_as_it_comes() -> None:
    job = at_step_of("hedging-hatchet", 22)
    for _ in range(3):
        job.heat()
    for name, size in (
        ("end_width", "76.71"),
        ("end_thickness", "5.93"),
        ("width", "56.39"),
        ("thickness", "9.05"),
    ):
        job.read(f"bit.{name}", size)
    thickness = next(one for one in job.standing().sizes if one.name == "bit.thickness")
    assert thickness.expected.value < 9.0
    assert thickness.state is SizeState.GOOD
    assert "over the 9 mm" not in stands_text(job.standing(), METRIC)
