"""A size that reads near a limit, beside how a hand works to a target: the chance, the verdict, the end."""

from __future__ import annotations

from math import erf, sqrt

import pytest

from coach.bench.session import Session
from coach.ledger.verdict import PlanState
from tests.bench.jobs import shop

RECIPE = """
recipe: pin
scale: {forging: 0.03 mm, welding: 0.08 mm, treatment: 0.01 mm}
pieces:
  pin:
    metal: mild steel
    bar: square 20, long 600
    zones:
      tail: square 10 ±0.5, long 100 ±30
      head: square 20 ±0.9, long 40 ±15
steps:
  - mark out: pin
    check: tail.mark
  - draw: tail, square 10 ±0.5, 4 heats
    check: side, length
  - cut: head, cold
    check: length
"""


def drawn_to(side_mm: float) -> Session:
    job = shop().begin(RECIPE, "pin.yaml")
    job.done()
    for _ in range(4):
        job.heat()
    for _ in range(2):  # it is stood by
        job.read("tail.side", f"{side_mm}", gauge="calliper")
    job.done()
    return job


def inside(mean: float, sd: float) -> float:
    return 0.5 * (erf((10.5 - mean) / sd / sqrt(2.0)) - erf((9.5 - mean) / sd / sqrt(2.0)))


@pytest.mark.parametrize("side_mm", [9.3, 9.4, 9.55, 9.7])
def test_what_a_gauge_says_and_how_a_hand_works_are_weighed_together(side_mm: float) -> None:
    # Two Gaussian readings of one size, by the inverse of their variances (GUM, JCGM 100:2008, H.1; from
    # memory): a hand that keeps nineteen of twenty inside ±0.5 has a standard uncertainty of 0.25.
    job = drawn_to(side_mm)
    read = next(one for one in job.standing().sizes if one.name == "tail.side").expected
    assert read.doubt is not None
    weight = 0.25**2 / (0.25**2 + read.doubt**2)
    both = inside(10.0 + weight * (read.value - 10.0), read.doubt * sqrt(weight))
    alone = inside(read.value, read.doubt)
    told = job.standing().chance
    assert told == pytest.approx(both, abs=0.12)  # one reading has told a little of this hand besides
    assert told >= alone - 0.02


def test_a_size_that_is_surely_out_is_off_plan_however_the_hand_works() -> None:
    standing = drawn_to(9.1).standing()
    assert standing.verdict is PlanState.OFF_PLAN
    assert 0.0 < standing.chance < 0.8


def test_at_the_end_all_sizes_are_told_at_once_beside_the_verdict() -> None:
    job = drawn_to(9.9)
    job.read("tail.length", "100", gauge="rule")
    job.done()
    standing = job.standing()
    assert standing.step is None
    assert standing.unread
    assert standing.will_pass is not None
    assert standing.will_pass.ceiling is None
    assert standing.will_pass.chance <= standing.chance


@pytest.mark.parametrize("side_mm", [9.42, 9.46, 9.5, 9.55, 9.6])
def test_no_job_is_off_plan_by_a_chance_that_is_called_tight(side_mm: float) -> None:
    # Unless a size was read surely outside of its limit, which no chance makes good.
    standing = drawn_to(side_mm).standing()
    if standing.chance >= 0.8:
        assert standing.verdict is not PlanState.OFF_PLAN
