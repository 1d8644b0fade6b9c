"""A log or a copy looked through as a whole: how much is in it, and whether it is as it was written."""

from __future__ import annotations

import shutil
import sqlite3
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from contextlib import closing, contextmanager, suppress
from pathlib import Path
from typing import NamedTuple

from coach.log.entries import FIRST_PREVIOUS, Entry, chained_digest, read_chain
from coach.log.errors import LogBusy, LogError, fact_alone
from coach.log.file import connect, is_laid_out_as_ours, journal_of
from coach.log.jobs import Log
from coach.log.names import is_kept_name, is_of_rack
from coach.log.salvage import Row, salvage


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
            faults = (fact_alone(str(error)),)
        chains = chains_of(find_all(seen).rows)
    last = max((chain[-1].at for chain in chains.values()), default="")
    jobs = sum(not is_of_rack(job) for job in chains)
    return LookedThrough(not faults, jobs, sum(map(len, chains.values())), last, faults)


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


class Found(NamedTuple):
    """What a file holds, as far as it can be read at all."""

    rows: tuple[Row, ...]  # those whose seals are right, wherever in the file they stand
    ends: dict[str, int]  # how many entries of each job there were, as far as anything tells of them
    unread: int  # how many pages nobody can tell what was in


def find_all(path: Path) -> Found:
    """All that is in a file, page by page where SQLite cannot read the whole of it. Raises OSError."""
    sealed, named, whole = _by_sqlite(path)
    unread = 0
    if not whole:
        by_page = salvage(path)
        sealed |= {row[6]: row for row in by_page.rows}
        named |= by_page.named
        unread = by_page.unread
    ends: dict[str, int] = {}
    for job, number, *_ in sealed.values():
        ends[job] = max(number, ends.get(job, 0))
    # A number that is named besides may itself be damaged: it counts for one entry, whatever it says.
    besides = Counter(job for job, number in named if is_kept_name(job) and number > ends.get(job, 0))
    return Found(
        tuple(sealed.values()), {job: ends.get(job, 0) + besides[job] for job in {*ends, *besides}}, unread
    )


def _by_sqlite(path: Path) -> tuple[dict[str, Row], set[tuple[str, int]], bool]:
    """The rows by their digests, the job and number of each that can be seen, and whether these are all."""
    sealed: dict[str, Row] = {}
    named: set[tuple[str, int]] = set()
    whole = False
    with suppress(sqlite3.Error, UnicodeDecodeError), closing(connect(path, True, 0.5)) as connection:
        if not is_laid_out_as_ours(connection):
            return sealed, named, whole
        for job, number, *texts in connection.execute(
            "SELECT job, number, at, kind, body, previous, digest FROM entries NOT INDEXED ORDER BY place"
        ):
            if not (isinstance(number, int) and all(isinstance(text, str) for text in (job, *texts))):
                continue
            at, kind, body, previous, digest = map(str, texts)
            row = (str(job), number, at, kind, body, previous, digest)
            named.add(row[:2])
            if chained_digest(previous, *row[:5]) == digest:
                sealed[digest] = row
        whole = connection.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
    return sealed, named, whole


def chains_of(own: Iterable[Row], others: Iterable[Row] = ()) -> dict[str, tuple[Entry, ...]]:
    """The entries of each job from its beginning to the first that is nowhere among these rows.

    The rows are sealed. A job of which any entry is among `own` is joined to its beginning through those that
    `others` have, whichever of them `own` lacks, the first too; and `others` go on where `own` ends.
    """
    own = tuple(own)
    by_digest: dict[str, Row] = {}
    following: dict[tuple[str, str], Row] = {}
    for row in (*others, *own):
        by_digest[row[6]] = row
        following[row[0], row[5]] = row
    found: dict[str, tuple[Entry, ...]] = {}
    not_joined: set[str] = set()
    for row in sorted(own, key=lambda row: row[1], reverse=True):  # the longest that is joined is the job
        job = row[0]
        if job in found or not is_kept_name(job):
            continue
        chain = _back_to_beginning(row, by_digest, not_joined)
        while chain and (next_row := following.get((job, chain[-1][6]))):
            chain.append(next_row)
        if sound := read_chain(job, (one[1:] for one in chain), 1, FIRST_PREVIOUS).sound:
            found[job] = sound
    return found


def _back_to_beginning(last: Row, by_digest: Mapping[str, Row], not_joined: set[str]) -> list[Row]:
    """The rows from a job's first to this one; none, and noted as not joined, where one between is lost."""
    chain = [last]
    while chain[-1][5] != FIRST_PREVIOUS:
        before = by_digest.get(chain[-1][5])
        if before is None or before[0] != last[0] or before[6] in not_joined:
            not_joined.update(row[6] for row in chain)
            return []
        chain.append(before)
    return chain[::-1]
