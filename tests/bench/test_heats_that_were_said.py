"""Heats that a smith said a step took stay, whatever is entered since; those taken for granted do not."""

from __future__ import annotations

from coach.bench.session import Session
from tests.bench.jobs import at_step_of

#: The bracket's leaf is planned in four heats.
PLANNED = 4


def leaf() -> Session:
    return at_step_of("scrolled-bracket", 2)


def heats_of(job: Session) -> int:
    return next(one.heats for one in job.standing().done if one.number == 2)


def test_as_many_as_planned_that_were_said_count_beside_one_entered_late() -> None:
    job = leaf()
    job.done(PLANNED)
    job.heat_then(2)
    assert heats_of(job) == PLANNED + 1


def test_as_many_as_planned_that_were_said_stay_where_the_step_is_gone_back_to() -> None:
    job = leaf()
    job.done(PLANNED)
    job.back()
    told = job.heat()
    assert "in place of" not in str(told.did)
    job.done()
    assert heats_of(job) == PLANNED + 1


def test_the_planned_ones_that_nobody_said_give_way_to_those_that_are_entered() -> None:
    job = leaf()
    job.done()
    job.heat_then(2)
    assert heats_of(job) == 1


def test_said_again_is_as_said() -> None:
    job = leaf()
    job.done(PLANNED)
    job.back()
    job.done()
    job.heat_then(2)
    assert heats_of(job) == PLANNED + 1
