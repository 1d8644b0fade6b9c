"""The angle of a bend: what brings it back in figures, and where it is read once the step is done.

The strap hinge turns its spike up to 90 ±3°: 97 is opened by 7, 84 is bent 6 further (by hand).
"""

from __future__ import annotations

import pytest

from coach.bench.entering import EntryFault
from coach.bench.session import Session
from coach.ledger.verdict import PlanState, Verdict
from coach.telling.words import write
from coach.telling.writing import Shown
from tests.bench.jobs import at_step_of

BENDS = 13
MM = Shown("mm")


def bent(angle: str) -> Session:
    job = at_step_of("strap-hinge", BENDS)
    job.heat()
    job.read("spike.angle", angle)
    return job


def cure(job: Session) -> str:
    return write(next(one for one in job.standing().checks if one.name == "spike.angle").if_out, MM)


def test_one_that_is_over_is_opened_by_so_much() -> None:
    job = bent("97")
    assert cure(job).startswith("Open it by 7°")
    assert "Open it by 7°" in write(job.ways_back()[0].changes, MM)
    assert job.standing().verdict is PlanState.TIGHT


def test_one_that_a_finished_step_left_open_is_bent_so_much_further() -> None:
    job = bent("84")
    job.done()
    assert job.standing().verdict is PlanState.TIGHT
    assert "Bend it 6 ° further" in str(job.standing().reason)


def test_good_it_needs_nothing() -> None:
    assert not cure(bent("91"))


def test_after_its_step_it_is_read_of_that() -> None:
    job = bent("84")
    job.done()
    with pytest.raises(
        EntryFault, match=f"The angle of the spike is of step {BENDS}, Turn the pin up: read it"
    ):
        job.read("spike.angle", "90")
    job.read("spike.angle", "90", then=job.then(BENDS))
    course = job._state.course_of(BENDS)
    assert course is not None
    last = course.last("spike", "angle")
    assert last is not None
    assert last.verdict is Verdict.GOOD
    assert job.standing().verdict is PlanState.ON_PLAN


def test_what_a_bend_was_read_to_is_old_once_a_heat_has_bent_it_further() -> None:
    """The sickle is swept in four heats, which do nothing else: one that came after makes it another."""
    job = at_step_of("garden-sickle", 5)
    job.heat()
    job.read("blade.radius", "118")
    job.read("blade.angle", "112")
    assert [one.reading.old for one in job.standing().checks if one.reading is not None] == [False, False]
    job.heat()
    assert [one.reading.old for one in job.standing().checks if one.reading is not None] == [True, True]
    job.read("blade.radius", "118")
    assert [one.reading.old for one in job.standing().checks if one.reading is not None] == [False, True]
