"""A day on which all that is asked for is read on its aim ends on plan: nothing that decides is unasked."""

from __future__ import annotations

from math import isfinite

import pytest

from coach.ledger.wanting import wanted
from coach.operations.measures import MARK
from coach.quantities import Limits
from tests.bench.law_of_done import NAMES, Job, Size, before
from tests.told import why


def asked_for(job: Job) -> dict[Size, Limits]:
    """The sizes that a step asks to be measured; its tests are no sizes."""
    plan, course = job.state.plan, job.state.course()
    assert course is not None
    found: dict[Size, Limits] = {}
    for zone, _, name in (check.rpartition(".") for check in job.step.checks):
        state = course.now.zones[zone]
        if not state.has_form or name not in (*state.shape.dimensions, MARK):
            continue
        dimension = state.shape.one_with(name) or name
        limits, _ = wanted(plan, course.now, job.step, zone, dimension)
        if limits is not None and isfinite(limits.nominal):
            found[zone, dimension] = limits
    return found


@pytest.mark.parametrize("name", NAMES)
def test_a_day_on_which_all_that_is_asked_for_is_read_on_its_aim_ends_on_plan(name: str) -> None:
    job = before(name, 1, measured=False)
    while job.state.step is not None:
        job = job.heated()
        job = job.read({size: limits.nominal for size, limits in asked_for(job).items()}).done()
    told = job.told()
    assert told.verdict == "on plan", why(job.standing())
    assert set(told.rows.values()) == {"good"}
