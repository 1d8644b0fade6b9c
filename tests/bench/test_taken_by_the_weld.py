"""A length that a step ahead leaves to the metal counts as that step is to leave it, not as it was read."""

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


def test_a_lap_that_its_weld_is_to_shorten_is_not_over_as_it_lies() -> None:
    # The drawing asks for 30 ±8; the plan folds 35.1 and the scale of the weld's heats leaves 32.0: 3.1 less.
    job, lap = lap_read("38.2")
    assert lap.expected.value == pytest.approx(38.2 - 3.1, abs=0.2)
    assert job.standing().verdict is PlanState.ON_PLAN


def test_one_that_stays_too_long_when_it_is_welded_is() -> None:
    job, lap = lap_read("42.8")
    assert lap.expected.value == pytest.approx(42.8 - 3.1, abs=0.2)
    assert job.standing().verdict is PlanState.OFF_PLAN


def test_its_row_agrees() -> None:
    # At most 38 in the end, and 3.1 mm that the weld takes: 41.1 as it is folded.
    short, _ = lap_read("40.0")
    long, _ = lap_read("42.8")
    assert [
        next(check.is_beyond for check in job.standing().checks if check.name == "eye.lap")
        for job in (short, long)
    ] == [False, True]
