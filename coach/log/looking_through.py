"""A log or a copy looked through as a whole: how much is in it, and whether it is as it was written."""

from __future__ import annotations

import shutil
import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager, suppress
from pathlib import Path
from typing import NamedTuple

from coach.log.entries import FIRST_PREVIOUS, Entry, StoredEntry, read_chain
from coach.log.errors import LogBusy, LogError
from coach.log.file import connect, journal_of
from coach.log.jobs import Log


class LookedThrough(NamedTuple):
    """What is in a file."""

    sound: bool  # whether all of it is as it was written
    jobs: int  # how many jobs can be read, wholly or to their first fault
    entries: int  # how many entries can be read and trusted
    last_at: str  # the moment of the newest of them; empty when there is none
    faults: tuple[str, ...]  # what is wrong, in sentences


def look_through(path: Path) -> LookedThrough:
    """Look through a file that is a log, or was one; it is only read. Raises LogBusy."""
    faults: tuple[str, ...] = ()
    with half_entry_undone(path) as seen:
        try:
            with Log(seen, read_only=True, whole=False) as log:
                faults = tuple(log.verify())
        except LogBusy:
            raise
        except LogError as error:
            faults = (str(error),)
        chains = sound_entries(seen)
    last = max((chain[-1].at for chain in chains.values()), default="")
    return LookedThrough(not faults, len(chains), sum(map(len, chains.values())), last, faults)


@contextmanager
def half_entry_undone(path: Path) -> Iterator[Path]:
    """A file to look at in place of a log: a copy where the log was left in the middle of an entry.

    What is only read cannot be put right by SQLite, which would call it unreadable; in the copy, which goes
    again, the half entry is undone. Any other log is looked at itself. Raises OSError.
    """
    if not (journal_of(path).is_file() and _is_left_half_way(path)):
        yield path
        return
    from tempfile import TemporaryDirectory

    with TemporaryDirectory() as folder:
        copy = Path(folder) / path.name
        shutil.copyfile(path, copy)
        shutil.copyfile(journal_of(path), journal_of(copy))
        with suppress(sqlite3.Error), closing(connect(copy, read_only=False, wait_s=0.5)) as connection:
            connection.execute(_LOOK).fetchall()
        yield copy


_LOOK = "SELECT count(*) FROM sqlite_schema"


def _is_left_half_way(path: Path) -> bool:
    try:
        with closing(connect(path, read_only=True, wait_s=0.5)) as connection:
            connection.execute(_LOOK).fetchall()
    except sqlite3.Error as error:
        return getattr(error, "sqlite_errorname", "") == "SQLITE_READONLY_ROLLBACK"
    return False


def sound_entries(path: Path) -> dict[str, tuple[Entry, ...]]:
    """The entries of each job before its first fault, as far as the file can be read at all."""
    by_job: dict[str, dict[int, StoredEntry]] = {}
    for job, *row in _rows(path):
        if isinstance(job, str) and isinstance(row[0], int):
            by_job.setdefault(job, {})[row[0]] = (row[0], row[1], row[2], row[3], row[4], row[5])
    found = {}
    for job, rows in by_job.items():
        with suppress(UnicodeEncodeError):  # a name that cannot be one any more
            if sound := read_chain(job, (rows[at] for at in sorted(rows)), 1, FIRST_PREVIOUS).sound:
                found[job] = sound
    return found


def listed_entries(path: Path) -> dict[str, int]:
    """How many entries of each job there were, by the highest number that can be seen, sound or not."""
    found: dict[str, int] = {}
    for job, number, *_ in _rows(path):
        if isinstance(job, str) and isinstance(number, int):
            found[job] = max(number, found.get(job, 0))
    return found


def _rows(path: Path) -> list[tuple[object, ...]]:
    """Every row that can be read, from both ends of the table up to what cannot."""
    found: dict[object, tuple[object, ...]] = {}
    with suppress(sqlite3.Error, OSError), closing(connect(path, read_only=True, wait_s=0.5)) as connection:
        for way in ("ASC", "DESC"):
            try:
                rows = connection.execute(
                    "SELECT place, job, number, at, kind, body, previous, digest FROM entries NOT INDEXED"
                    f" ORDER BY place {way}"
                )
                for place, *row in rows:
                    found[place] = tuple(row)
                break  # all of them were read
            except sqlite3.Error:
                continue
    return [found[place] for place in sorted(found, key=str)]
