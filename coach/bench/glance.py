"""The shop's list of jobs: one line of each, and their order."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any, NamedTuple

from coach.log.status import JobStatus
from coach.quantities import NOTHING, Words

if TYPE_CHECKING:
    from coach.log.newest import Newest
    from coach.remembered import Memory


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


def recalled(
    memory: Memory,
    path: Path,
    newest: Sequence[Newest],
    read: Callable[[Sequence[str]], Iterable[JobSummary]],
) -> tuple[JobSummary, ...]:
    """Every job of the log at `path`, in order; those with other entries than when they were kept are read.

    Args:
        memory: where the others are kept.
        path: the log's file.
        newest: the newest entry of every job in it.
        read: gives the summaries of jobs by their names; one that is in trouble is not kept.
    """
    name = f"jobs of {path.absolute()}"
    kept: dict[str, list[Any]] = json.loads(memory.recall(name, ()) or "{}")
    found, lacking = {}, []
    for one in newest:
        number, digest, *row = kept.get(one.job, (0, ""))
        if (number, digest) == one[1:]:
            found[one.job] = JobSummary(*row)._replace(state=JobStatus(row[2]))
        else:
            lacking.append(one.job)
    if lacking:
        found |= {one.job: one for one in read(lacking)}
        sound = {one.job: [*one[1:], *found[one.job][:-1]] for one in newest if not found[one.job].trouble}
        memory.keep(name, (), json.dumps(sound, ensure_ascii=False))
    return in_order(found[one.job] for one in newest)
