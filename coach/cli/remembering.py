"""Answers that follow from a job's entries alone, told again without reckoning while no entry has come since.

They are kept in the cache folder under the digest of the job's last entry. Before anything is entered the job
is opened, its seals are checked and it is replayed.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from contextlib import suppress
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, TypeVar

from coach.bench.glance import JobSummary, latest, recalled
from coach.cli import kept_answers
from coach.cli.kept_answers import how_told
from coach.cli.opening import a_job, log_with_jobs, open_shop
from coach.cli.reply import Asked, Reply
from coach.log.errors import LogError
from coach.log.newest import newest_of, newest_of_jobs
from coach.places import cache_folder
from coach.remembered import Memory

if TYPE_CHECKING:
    from coach.bench.session import Session

T = TypeVar("T")


def told_again(asked: Asked, what: str, tell: Callable[[Session], Reply[T]]) -> Reply[T]:
    """The answer of a command that only tells: as it was told for these entries, or told anew and kept."""
    memory, path, newest = Memory(cache_folder()), log_with_jobs(asked), None
    with suppress(LogError):
        newest = newest_of(path, asked.job)
    if newest is None:
        with a_job(asked) as session:
            return tell(session)
    name = f"{what} {newest.job} of {path.absolute()} {how_told(asked)}"
    key = newest.number, newest.digest
    if (kept := kept_answers.recalled(memory, name, key)) is not None:
        return kept
    with a_job(asked) as session:
        answer = tell(session)
        if session.newest == newest:  # else something was entered in between
            kept_answers.keep(memory, asked, name, key, answer)
    return answer


def jobs_at_a_glance(asked: Asked, path: Path) -> tuple[JobSummary, ...]:
    """Every job in the log at `path`, the latest touched first; those with new entries are read anew."""
    memory = Memory(cache_folder())
    return _looked_at(asked, path, lambda: recalled(memory, path, newest_of_jobs(path), partial(_read, path)))


def latest_jobs(asked: Asked, path: Path, most: int) -> tuple[tuple[JobSummary, ...], int]:
    """So many jobs of the log at `path` that were touched last, and how many there are in all."""
    memory = Memory(cache_folder())
    return _looked_at(asked, path, lambda: latest(memory, path, most, partial(_read, path)))


def _read(path: Path, names: Sequence[str]) -> list[JobSummary]:
    from coach.bench.beginnings import Plans, summary
    from coach.log.jobs import Log

    plans = Plans()
    # Not by the shop, which loads all that a bench needs besides.
    with Log(path, read_only=True, whole=False) as log:
        return [summary(log, name, plans) for name in names]


def _looked_at(asked: Asked, path: Path, look: Callable[[], T]) -> T:
    """What is seen in a log that is only read; where it cannot simply be, it is opened as usual before."""
    try:
        return look()
    except LogError:
        with open_shop(asked, path):
            return look()
