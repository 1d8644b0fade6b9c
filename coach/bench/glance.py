"""The shop's list of jobs: one line of each, and their order."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any, NamedTuple

from coach.log.newest import Mark, latest_names, touched_since
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
    last_at: str  # when the newest entry was made; what it is to teach the shop is none
    worked_at: str  # when it was worked, rested or set aside last: as that was said, else as it was entered
    trouble: Words = NOTHING  # why the job cannot be opened, "" when it can


def in_order(jobs: Iterable[JobSummary]) -> tuple[JobSummary, ...]:
    """The latest touched first, and those set aside last."""
    latest_first = sorted(jobs, key=lambda one: one.last_at, reverse=True)
    return tuple(sorted(latest_first, key=lambda one: one.state is JobStatus.SET_ASIDE))


class Lines:
    """The lines of a log's jobs that are known: as they were kept, and as they were read since."""

    def __init__(self, memory: Memory | None, path: Path) -> None:
        """Of the log at `path`; without a memory those alone that are read."""
        self._memory, self._name = memory, f"jobs of {path.absolute()}"
        kept: dict[str, list[Any]] = json.loads((memory and memory.recall(self._name, ())) or "{}")
        self._known: dict[tuple[object, ...], JobSummary] = {}
        for job, (number, digest, *row) in kept.items():
            self._known[job, number, digest] = JobSummary(*row)._replace(state=JobStatus(row[2]))

    def of(self, newest: Iterable[Newest]) -> tuple[list[JobSummary], list[Newest]]:
        """Those of jobs with these newest entries, and the jobs that there is none of."""
        found, lacking = [], []
        for one in newest:
            if (line := self._known.get(one)) is not None:
                found.append(line)
            else:
                lacking.append(one)
        return found, lacking

    def forget_troubles(self) -> None:
        """Let those be read again that were in trouble: that may be over, though no entry has come."""
        self._known = {one: line for one, line in self._known.items() if not line.trouble}

    def take(self, newest: Sequence[Newest], read: Iterable[JobSummary]) -> None:
        """Take those of jobs with these newest entries, in the same order."""
        self._known.update(zip(newest, read, strict=True))

    def keep(self, newest: Iterable[Newest]) -> None:
        """Remember those of jobs with these newest entries; one that is in trouble is read again."""
        self._known = {tuple(one): line for one in newest if (line := self._known.get(one))}
        if self._memory is not None:
            sound = ((one, line) for one, line in self._known.items() if not line.trouble)
            kept = {str(one[0]): [*one[1:], *line[:-1]] for one, line in sound}
            self._memory.keep(self._name, (), json.dumps(kept, ensure_ascii=False))


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
        read: gives the summaries of jobs by their names.
    """
    lines = Lines(memory, path)
    _, lacking = lines.of(newest)
    if lacking:
        lines.take(lacking, read([one.job for one in lacking]))
    found, _ = lines.of(newest)
    if lacking:
        lines.keep(newest)
    return in_order(found)


def latest(
    memory: Memory, path: Path, most: int, read: Callable[[Sequence[str]], Iterable[JobSummary]]
) -> tuple[tuple[JobSummary, ...], int]:
    """The jobs of a log that were touched last, at most so many of them, in order; and how many there are.

    Only those are read that may be among them. What was told before is told again, with the jobs that were
    touched since in their places.

    Args:
        memory: where that is kept; not while one of them is in trouble.
        path: the log's file.
        most: how many are wanted.
        read: gives the summaries of jobs by their names.

    Raises LogError.
    """
    name = f"latest {most} jobs of {path.absolute()}"
    kept = json.loads(memory.recall(name, ()) or "null")
    since = None if kept is None else touched_since(path, Mark(*kept[0]))
    now = None if since is None else _brought_up(_thawed(kept[1]), most, *since, read)
    if since is None or now is None:
        mark, now = _from_the_top(most, path, read)
    else:
        mark, touched = since
        if not touched:
            return now, mark.jobs
    if not any(job.trouble for job in now):
        memory.keep(name, (), json.dumps([mark, [job[:-1] for job in now]], ensure_ascii=False))
    return now, mark.jobs


def _thawed(rows: Iterable[Sequence[Any]]) -> tuple[JobSummary, ...]:
    return tuple(JobSummary(*row)._replace(state=JobStatus(row[2])) for row in rows)


def _brought_up(
    told: Sequence[JobSummary],
    most: int,
    mark: Mark,
    since: Sequence[str],
    read: Callable[[Sequence[str]], Iterable[JobSummary]],
) -> tuple[JobSummary, ...] | None:
    """What was told with the jobs touched since; None where one of those left out may now be among them."""
    if not since:
        return tuple(told)
    if len(since) > most:
        return None
    anew = {one.job: one for one in read(since)}
    found = [*(one for one in told if one.job not in anew), *anew.values()]
    if len({one.last_at for one in found}) < len(found) or any(one.trouble for one in found):
        return None  # of two of one moment that which was begun first comes first
    now = in_order(found)[:most]
    all_are_told = len(now) == mark.jobs
    if not all_are_told and (not told or in_order([now[-1], told[-1]])[0] is not now[-1]):
        return None
    return now


def _from_the_top(
    most: int, path: Path, read: Callable[[Sequence[str]], Iterable[JobSummary]]
) -> tuple[Mark, tuple[JobSummary, ...]]:
    """How far the log goes, and its jobs read from the latest on, until so many are not set aside."""
    found: list[JobSummary] = []
    looked_at = most
    mark, names = latest_names(path, looked_at)
    while True:
        found += read(names[len(found) :])
        if len(names) < looked_at or sum(one.state is not JobStatus.SET_ASIDE for one in found) >= most:
            return mark, in_order(found)[:most]
        looked_at *= 4
        _, names = latest_names(path, looked_at)
