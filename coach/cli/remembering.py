"""Answers that follow from a job's entries alone, told again without reckoning while no entry has come since.

They are kept in the cache folder under the digest of the job's last entry. Before anything is entered the job
is opened, its seals are checked and it is replayed.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Sequence
from contextlib import suppress
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, TypeVar, cast

from coach.bench.glance import JobSummary, latest, recalled
from coach.cli.opening import a_job, log_with_jobs, open_shop
from coach.cli.reply import Asked, Reply
from coach.log.errors import LogError
from coach.log.newest import newest_of, newest_of_all
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
    how = f"in {asked.units or 'its own units'} as {'JSON' if asked.json else 'lines'}"
    name, key = f"{what} {newest.job} of {path.absolute()} {how}", (newest.number, newest.digest)
    if (kept := memory.recall(name, key)) is not None:
        lines, values, code = json.loads(kept)
        return Reply(tuple(lines), cast("T", values), code)
    with a_job(asked) as session:
        answer = tell(session)
        if session.newest == newest:  # else something was entered in between
            memory.keep(name, key, _as_text(asked, answer))
    return answer


def _as_text(asked: Asked, answer: Reply[T]) -> str:
    """The lines, or the values as JSON answers hold them: the one of the two that is printed."""
    from coach.telling.values import json_values
    from coach.telling.writing import Shown

    values = json_values(answer.values, answer.shown or Shown(asked.units or "mm")) if asked.json else None
    lines = () if asked.json else answer.lines
    return json.dumps([lines, values, answer.code], ensure_ascii=False, allow_nan=False)


def jobs_at_a_glance(asked: Asked, path: Path) -> tuple[JobSummary, ...]:
    """Every job in the log at `path`, the latest touched first; those with new entries are read anew."""
    memory = Memory(cache_folder())
    return _looked_at(
        asked, path, lambda: recalled(memory, path, newest_of_all(path), partial(_read, asked, path))
    )


def latest_jobs(asked: Asked, path: Path, most: int) -> tuple[tuple[JobSummary, ...], int]:
    """So many jobs of the log at `path` that were touched last, and how many there are in all."""
    memory = Memory(cache_folder())
    return _looked_at(asked, path, lambda: latest(memory, path, most, partial(_read, asked, path)))


def _read(asked: Asked, path: Path, names: Sequence[str]) -> list[JobSummary]:
    with open_shop(asked, path, only_look=True) as shop:
        return [shop.summary(name) for name in names]


def _looked_at(asked: Asked, path: Path, look: Callable[[], T]) -> T:
    """What is seen in a log that is only read; where it cannot simply be, it is opened as usual before."""
    try:
        return look()
    except LogError:
        with open_shop(asked, path):
            return look()
