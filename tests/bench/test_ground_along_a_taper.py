"""A step that takes length off a taper changes its end with it: that is told from the start."""

from __future__ import annotations

import pytest

from coach.bench.session import Session
from coach.ledger.verdict import PlanState
from tests.bench.jobs import at_step_of

# The chisel's edge runs from 17 mm to what is read at its end over some 59.4 mm, and grinding it sharp takes
# 1 mm off the length: by hand (17 - end) / 59.4 a millimetre, some 0.24 mm thicker (elementary geometry).
GAIN_MM = 0.24


def end_of(job: Session) -> float:
    return next(size.expected.value for size in job.standing().sizes if size.name == "edge.end_thickness")


@pytest.mark.parametrize("end_mm", [2.5, 2.7])  # as thin as the file is to leave it: it takes no more off
def test_what_the_last_grinding_adds_to_an_end_is_in_the_forecast_from_the_start(end_mm: float) -> None:
    job = at_step_of("cold-chisel", 8)
    job.read("edge.end_thickness", str(end_mm), insist=True)
    job.read("edge.length", "59.4", insist=True)
    told = [end_of(job)]
    for _ in range(4):  # filed, hardened, tempered and ground
        job.done()
        told.append(end_of(job))
    assert told == pytest.approx([end_mm + GAIN_MM] * 5, abs=0.06)


@pytest.mark.parametrize("end_mm", ["2.5", "2.9", "3.2"])
def test_once_filed_an_end_is_told_in_every_step_as_it_is_once_it_is_ground(end_mm: str) -> None:
    job = at_step_of("cold-chisel", 8)
    job.read("edge.end_thickness", end_mm, insist=True)
    job.read("edge.length", "59.4", insist=True)
    told = []
    for _ in range(4):
        job.done()
        told.append(end_of(job))
    assert told[0] > float(end_mm) + GAIN_MM / 2
    assert told == pytest.approx([told[-1]] * 4, abs=0.03)


@pytest.mark.parametrize("end_mm", ["2.5", "2.7"])
def test_an_end_that_the_stone_brings_inside_is_on_plan_in_every_step_before(end_mm: str) -> None:
    job = at_step_of("cold-chisel", 8)
    job.read("edge.end_thickness", end_mm, insist=True)
    job.read("edge.length", "59.4", insist=True)
    verdicts = [job.standing().verdict]
    for _ in range(3):
        job.done()
        verdicts.append(job.standing().verdict)
    assert verdicts == [PlanState.ON_PLAN] * 4


def test_an_end_that_the_stone_takes_over_its_limit_is_told_before_it() -> None:
    # 3.5 mm is the most that the drawing allows: 3.4 is inside, and some 3.65 is not.
    job = at_step_of("cold-chisel", 8)
    job.read("edge.end_thickness", "3.4", insist=True)
    job.read("edge.length", "59.4", insist=True)
    job.done()
    assert job.standing().verdict is not PlanState.ON_PLAN
    assert end_of(job) > 3.5
