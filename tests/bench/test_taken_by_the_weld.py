"""A lap that is still to be welded counts as it was read: its fires thin the strap and leave its length."""

from __future__ import annotations

import pytest

from coach.bench.session import Session
from coach.ledger.verdict import PlanState
from coach.ledger.zone_forecast import FinishedSize
from tests.bench.jobs import at_step_of


def lap_read(size: str) -> tuple[Session, FinishedSize]:
    """The froe while its eye is folded, the lap read so after the first of two heats."""
    job = at_step_of("folded-froe", 3)
    job.heat()
    job.read("eye.inside", "36.4")
    job.read("eye.lap", size)
    (lap,) = (one for one in job.standing().sizes if one.name == "eye.lap")
    return job, lap


def test_a_lap_that_is_inside_as_it_lies_is_inside_when_it_is_welded() -> None:
    # The drawing asks for 30 ±8. The fires of the weld thin the strap and leave its length.
    job, lap = lap_read("36")
    assert lap.expected.value == pytest.approx(36.0, abs=0.2)
    assert job.standing().verdict is PlanState.ON_PLAN


def test_one_that_stays_too_long_when_it_is_welded_is_off_plan() -> None:
    job, lap = lap_read("40")
    assert lap.expected.value == pytest.approx(40.0, abs=0.2)
    assert job.standing().verdict is PlanState.OFF_PLAN


def test_its_row_agrees() -> None:
    short, _ = lap_read("36")
    long, _ = lap_read("40")
    assert [
        next(check.is_beyond for check in job.standing().checks if check.name == "eye.lap")
        for job in (short, long)
    ] == [False, True]
