"""A bow and a wind that were left too large stay to be put right: no stone and no saw turns them back."""

from __future__ import annotations

import pytest

from coach.bench.session import Session
from coach.ledger.verdict import PlanState
from tests.bench.jobs import at_step_of

#: The sickle's blade is straightened at step 7, 1.5 mm of wind and of bow at the most, and ground at step 9.
TRUED, GROUND = 7, 9


def at_the_stone(dimension: str) -> Session:
    job = at_step_of("garden-sickle", TRUED)
    job.heat()
    job.read(f"blade.{dimension}", "1.8")
    while (step := job.standing().step) is not None and step.number < GROUND:
        job.done()
    return job


@pytest.mark.parametrize("dimension", ["wind", "bow"])
def test_what_is_ground_is_as_much_out_of_line_as_before(dimension: str) -> None:
    job = at_the_stone(dimension)
    before = job.standing()
    assert before.verdict is PlanState.TIGHT
    assert [one.text for one in before.to_right] == [f"{dimension} too high"]
    job.read("blade.edge", "1")
    after = job.standing()
    assert after.verdict is PlanState.TIGHT
    assert [one.text for one in after.to_right] == [f"{dimension} too high"]


def test_a_way_that_is_taken_has_put_nothing_right_yet() -> None:
    job = at_the_stone("wind")
    job.take("by-hand-blade-wind")
    assert job.standing().verdict is PlanState.TIGHT
    assert [one.text for one in job.standing().to_right] == ["wind too high"]
    job.read("blade.wind", "1.2", then=job.then(TRUED, ""))
    assert job.standing().verdict is PlanState.ON_PLAN
    assert not job.standing().to_right
