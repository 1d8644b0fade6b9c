"""A cut that nobody read at its step lies where it is read later, and tells nothing of the fire."""

from __future__ import annotations

import pytest

from coach.bench.session import Session
from tests.bench.jobs import at_step_of


def bit_cut(length: str, *, later: bool) -> Session:
    """The hatchet's bit cut to 33.6 mm by its plan, read at its cut or three steps on."""
    job = at_step_of("hedging-hatchet", 9)
    job.heat()
    if not later:
        job.read("bit.length", length)
    job.done()
    if later:
        job.done()
        job.done()
        job.read("bit.length", length)
    return job


def scale_of(job: Session) -> float:
    now = job._state.now
    assert now is not None
    return now.scale_factor()


@pytest.mark.parametrize("length", ["30", "31.5", "33.5", "35"])
def test_a_cut_read_later_teaches_the_fire_no_more_than_read_at_its_step(length: str) -> None:
    at_once, later = bit_cut(length, later=False), bit_cut(length, later=True)
    assert scale_of(later) == pytest.approx(scale_of(at_once), abs=0.05)
    now = later._state.now
    assert now is not None
    assert now.size("bit", "length").value == pytest.approx(float(length), abs=0.15)


def test_a_length_that_was_read_at_its_cut_is_not_taken_for_a_cut_again() -> None:
    job = bit_cut("33.5", later=False)
    job.done()
    job.read("bit.length", "28")
    check = next(one for one in job.standing().checks if one.name == "bit.length")
    assert check.is_questioned
