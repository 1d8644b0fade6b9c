"""A verdict stands beside no chance that says otherwise: a size read a hair outside is off plan for that."""

from __future__ import annotations

import pytest

from coach.bench.session import Session
from coach.ledger.verdict import PlanState, plan_state
from coach.telling.sheet import stands_line
from coach.telling.why import stands_text
from coach.telling.writing import METRIC
from tests.bench.jobs import begun

SCRAPER = """
recipe: Soft scraper
pieces:
  scraper:
    metal: mild steel
    bar: 25 x 6, long 500
    zones:
      tang: 14 ±1 x 6 ±0.6 to 6 ±1 x 5 ±0.6, long 90 ±9, allowance 4 %
      blade: 27 ±2 x 3.6 ±0.4, long 100 ±12, allowance 8 %
usual: {at: light yellow, kerf: 2}
steps:
  - mark out: scraper
  - taper: tang, 3 heats
    check: width, end width, end thickness, length
  - cut: blade, 1 heat
    check: length
  - spread: blade, 27.5 ±2 x 5 ±0.4, 2 heats
    check: width, thickness, length
  - grind: blade, 27 ±2 x between 3.2 and 4
    check: thickness, width
"""


def ground_to(thickness: str) -> Session:
    """All of it came as wanted, but for what the stone left."""
    job = begun(SCRAPER)
    while (at := job.standing()).step is not None:
        for check in at.checks:
            if check.wanted is not None:
                aim = f"{check.wanted.limits.nominal:.2f}"
                job.read(
                    check.name, thickness if at.step.number == at.steps and "thick" in check.name else aim
                )
        job.done()
    return job


@pytest.mark.parametrize("thickness", ["4.01", "4.1"])
def test_off_plan_for_a_size_read_a_hair_outside_has_no_chance_beside_it_that_says_otherwise(
    thickness: str,
) -> None:
    job = ground_to(thickness)
    standing, sheet = job.standing(), job.sheet()
    assert standing.verdict is PlanState.OFF_PLAN
    assert plan_state(standing.chance) is not PlanState.OFF_PLAN  # with how this hand works to a size
    assert stands_text(standing, METRIC).startswith("Off plan: Blade thickness is 4")
    assert "%" not in stands_line(sheet, METRIC).words.partition(":")[0]


def test_one_that_is_far_outside_tells_how_unlikely_it_is() -> None:
    assert stands_text(ground_to("5").standing(), METRIC).startswith("Off plan, under 1 %: ")


@pytest.mark.parametrize("thickness", ["3.9", "3.99", "4.01"])
def test_what_is_too_near_its_limit_to_be_sure_of_is_ground_nearer_to_its_middle_as_what_is_over_it_is(
    thickness: str,
) -> None:
    """The worse size must not be the one that has a way back: at 3.99 a stroke of the file settles it."""
    job = ground_to(thickness)
    assert job.standing().verdict is not PlanState.ON_PLAN
    way = next(one for one in job.ways_back() if one.name == "grind-thinner-blade")
    assert way.verdict is PlanState.ON_PLAN
    job.take(way.name)
    assert job.standing().verdict is PlanState.ON_PLAN
