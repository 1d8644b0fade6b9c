"""What was questioned before a heat bears out nothing that is read after it: the metal was worked between."""

from __future__ import annotations

from coach.bench.session import Session
from tests.bench.jobs import at_step_of

THICK = "edge.end_thickness"


def questioned(job: Session, size: str) -> bool:
    """Whether a reading of the edge's end is questioned."""
    job.read(THICK, size)
    return next(check.is_questioned for check in job.standing().checks if check.name == THICK)


def test_a_slip_into_the_wrong_row_is_asked_about_each_time_it_is_made() -> None:
    # The end's width, 25 mm, typed for its thickness: no hammer makes that of a bar of 19 mm.
    job = at_step_of("cold-chisel", 2)
    job.heat()
    assert questioned(job, "25")
    job.heat()
    assert not questioned(job, "5.2")
    job.heat()
    assert questioned(job, "25.2")
    assert not questioned(job, "25.2")  # read again at once it stands, as before
