"""A number that cannot be what it was entered as, and which size it is then said to fit."""

from __future__ import annotations

from coach.bench.session import Session
from tests.bench.jobs import at_step_of


def fits(job: Session) -> dict[str, str]:
    return {check.name: check.fits for check in job.standing().checks if check.fits}


def test_a_slip_of_the_unit_is_not_offered_to_a_length_of_which_only_a_least_is_wanted() -> None:
    # By hand: the peen is about 42 mm long in a section of 35 × 35 to 16 mm; 16.3 inches are 414 mm, for
    # which it has not a tenth of the metal.
    job = at_step_of("cross-peen-hammer", 6)
    job.read("peen.thickness", "35.6", hot="")
    job.read("peen.width", "35.4", hot="")
    job.read("peen.end_thickness", "16.3in", hot="")
    assert job.standing().questioned
    assert fits(job) == {}


def test_what_was_questioned_at_one_size_is_not_said_to_fit_it_from_another() -> None:
    job = at_step_of("cross-peen-hammer", 7)
    job.read("poll.length", "409")
    job.read("peen.length", "409")
    assert {check.name for check in job.standing().questioned} == {"poll.length", "peen.length"}
    assert fits(job) == {}


def test_a_number_that_is_possible_one_row_on_is_still_said_to_fit_there() -> None:
    # The recipe wants 35 ±1 of the thickness and 16 ±1 of the end's; the metal makes the length about 42.
    job = at_step_of("cross-peen-hammer", 6)
    job.read("peen.end_thickness", "42")
    assert fits(job) == {"peen.end_thickness": "peen.length"}
