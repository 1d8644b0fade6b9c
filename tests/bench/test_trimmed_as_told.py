"""What a way back trims to a size is told at that size, in row, spare, reason and what is expected."""

from __future__ import annotations

import pytest

from coach.bench.session import Session
from coach.ledger.verdict import PlanState, SizeState
from tests.bench.test_settled_sizes import at_step
from tests.told import why


def plate_trimmed() -> Session:
    """The hook's plate has run to 18.7 mm where the drawing asks 16 ±2, and is trimmed to 16."""
    job = at_step("first-hook", 7)
    job.read("plate.length", "44.6")
    job.read("plate.width", "16.0")
    job.done()
    job.read("plate.width", "18.7")
    assert job.standing().verdict is PlanState.OFF_PLAN
    job.take("trim-the-width")
    return job


def test_a_width_that_is_trimmed_is_expected_and_told_at_what_it_is_trimmed_to() -> None:
    job = plate_trimmed()
    told = job.standing()
    row = next(size for size in told.sizes if size.name == "plate.width")
    assert row.expected.value == pytest.approx(16.0, abs=0.01)
    assert row.state is SizeState.GOOD
    spare = next(one for one in told.spares if (one.zone, one.dimension) == ("plate", "width"))
    assert spare.spare.value == pytest.approx(2.0, abs=0.01)  # 16 over the least of 14
    check = next(one for one in told.checks if one.name == "plate.width")
    assert check.is_open
    assert check.expected is not None
    assert check.expected.value == pytest.approx(16.0, abs=0.01)
    assert told.verdict is PlanState.ON_PLAN
    assert "short of its least" not in why(told)


def test_what_was_trimmed_and_not_measured_since_is_told_as_not_measured() -> None:
    job = plate_trimmed()
    job.done()
    job.done()
    row = next(size for size in job.standing().sizes if size.name == "plate.width")
    assert not row.measured
    assert row.expected.value == pytest.approx(16.0, abs=0.1)


def test_a_reading_after_the_trim_takes_its_place() -> None:
    job = plate_trimmed()
    job.read("plate.width", "15.2", insist=True)
    row = next(size for size in job.standing().sizes if size.name == "plate.width")
    assert row.measured
    assert row.expected.value == pytest.approx(15.2, abs=0.01)
