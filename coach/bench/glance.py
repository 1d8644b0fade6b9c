"""The shop's list of jobs: one line of each, and their order."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from coach.log.status import JobStatus
from coach.quantities import NOTHING, Words


class JobSummary(NamedTuple):
    """One line of the shop's list of jobs."""

    job: str  # the job's name
    title: str  # the recipe's title
    state: JobStatus
    step: int  # the step in hand, from 1
    steps: int  # how many steps there are
    step_title: str  # what the step is called
    last_at: str  # when the newest entry was made
    trouble: Words = NOTHING  # why the job cannot be opened, "" when it can


def in_order(jobs: Iterable[JobSummary]) -> tuple[JobSummary, ...]:
    """The latest touched first, and those set aside last."""
    latest_first = sorted(jobs, key=lambda one: one.last_at, reverse=True)
    return tuple(sorted(latest_first, key=lambda one: one.state is JobStatus.SET_ASIDE))
