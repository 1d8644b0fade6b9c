"""Where an eye is to be punched along the bar can be read at the mark-out, as a mark can."""

from __future__ import annotations

import pytest

from coach.bench.entering import EntryFault
from coach.bench.session import Session
from coach.ledger.verdict import PlanState
from tests.bench.jobs import at_step
from tests.told import said


def centre_mm(job: Session) -> float:
    (centre,) = job.plan.pieces["body"].centres
    return centre.at.value


def test_a_centre_in_its_place_is_good() -> None:
    job = at_step(1)
    assert ": good, wanted " in said(job.read("eye.centre", f"{centre_mm(job):.1f}"))
    assert not job.standing().to_right


def test_a_centre_out_of_its_place_is_to_be_put_right_until_it_is_made_anew() -> None:
    job = at_step(1)
    assert "out, " in said(job.read("eye.centre", f"{centre_mm(job) + 10.0:.1f}"))
    assert [(one.zone, one.text) for one in job.standing().to_right] == [("eye", "centre too high")]
    assert job.standing().verdict is not PlanState.ON_PLAN
    job.read("eye.centre", f"{centre_mm(job):.1f}")
    assert not job.standing().to_right


def test_it_is_no_part_of_the_metal() -> None:
    job = at_step(1)
    sizes = [size.expected for size in job.standing().sizes]
    job.read("eye.centre", f"{centre_mm(job) + 10.0:.1f}")
    assert [size.expected for size in job.standing().sizes] == sizes


def test_what_is_not_punched_has_no_centre() -> None:
    with pytest.raises(EntryFault, match="The poll has no 'centre' at this step"):
        at_step(1).read("poll.centre", "20")
