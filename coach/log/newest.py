"""The newest entry of a job, read without opening the job or reading what is in it."""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path, PurePath
from typing import NamedTuple

from coach.log.errors import from_sqlite
from coach.log.file import APPLICATION_ID, LAYOUTS, connect, is_laid_out_as_ours, whole_number
from coach.log.names import RACK, is_of_rack, meant

#: What of a job's entries is about the shop's figures alone, and what takes it back: whoever says what a job
#: of last year is to teach has not taken that job up again, so it keeps its place among the others. The names
#: of the kinds stand here, for a list of jobs is told without loading any; a test holds them.
OF_SHOP_ALONE, TAKES_BACK = "lesson left out", "struck"
#: No job is called so: it is the rack.
_OF_A_JOB = f"job NOT GLOB '{RACK}*'"


class Newest(NamedTuple):
    """How far a job goes: whoever knows this digest knows every entry up to it, for it seals them all."""

    job: str
    number: int
    digest: str


def newest_of_jobs(path: Path) -> list[Newest]:
    """The newest entry of every job in the log at `path`, in the order they were begun. Raises LogError."""
    return [one for one in newest_of_all(path) if not is_of_rack(one.job)]


def newest_of_all(path: Path) -> list[Newest]:
    """The same, and last that of the rack.

    Raises LogError where the log cannot simply be read: whoever opens it then is told why.
    """
    with _reading(path) as connection:
        return all_last_in(connection)


class Mark(NamedTuple):
    """How far a whole log goes: nothing before this place changes, for a log is only added to."""

    file: int  # the number of the file, which is another once a log was restored
    place: int  # of the last entry of all
    digest: str  # of that entry
    jobs: int  # how many there are


def end_of(path: Path) -> tuple[int, int, str]:
    """The number of the log's file, and the place and the digest of its last entry. Raises LogError."""
    with _reading(path) as connection:
        row = connection.execute("SELECT place, digest FROM entries ORDER BY place DESC LIMIT 1").fetchone()
        return (path.stat().st_ino, int(row[0]), str(row[1])) if row else (path.stat().st_ino, 0, "")


def latest_names(path: Path, most: int) -> tuple[Mark, list[str]]:
    """How far the log at `path` goes, and the jobs that were taken up last by the moments of their entries.

    At most so many, the latest first; what a job is to teach the shop takes it up nowhere. Of two of one
    moment that which was begun first. Raises LogError.
    """
    with _reading(path) as connection:
        # All in one question, so that nothing comes between; for beginnings of those alone that may be told.
        rows = connection.execute(
            f"""{_EACH_LAST},
            job_last AS (SELECT place, job, {_TAKEN_UP} AS at FROM last WHERE {_OF_A_JOB}),
            told (at) AS (SELECT at FROM job_last ORDER BY at DESC LIMIT :most)
            SELECT last.job, (SELECT count(*) FROM job_last), (SELECT max(place) FROM entries)
            FROM job_last AS last LEFT JOIN entries AS first ON first.job = last.job AND first.number = 1
            WHERE last.at >= (SELECT min(at) FROM told)
            ORDER BY last.at DESC, first.place IS NULL, first.place LIMIT :most""",
            {"most": most},
        ).fetchall()
        jobs, place = rows[0][1:] if rows else (0, 0)
        sealed = connection.execute("SELECT digest FROM entries WHERE place = ?", (place,)).fetchone()
        digest = str(sealed[0]) if sealed else ""
        return Mark(path.stat().st_ino, int(place), digest, int(jobs)), [str(job) for job, *_ in rows]


def touched_since(path: Path, since: Mark) -> tuple[Mark, list[str]] | None:
    """How far the log at `path` goes, and the jobs with entries since a mark; None where that is of another.

    Raises LogError.
    """
    with _reading(path) as connection:
        file = path.stat().st_ino
        last = connection.execute("SELECT place, digest FROM entries ORDER BY place DESC LIMIT 1").fetchone()
        there = "SELECT 1 FROM entries WHERE place = ? AND digest = ?"
        if last is None or since.file != file or not connection.execute(there, since[1:3]).fetchone():
            return None
        # SQLite would read the whole of the index of jobs: told not to, it goes by the places.
        after = f"FROM entries NOT INDEXED WHERE place > ? AND {_OF_A_JOB}"
        rows = connection.execute(f"SELECT job {after}", since[1:2])
        names = [*dict.fromkeys(str(job) for (job,) in rows)]
        begun = connection.execute(f"SELECT count(*) {after} AND number = 1", since[1:2]).fetchone()[0]
        return Mark(file, int(last[0]), str(last[1]), since.jobs + int(begun)), names


def newest_of(path: Path, wanted: str) -> Newest | None:
    """The same of one job, named by as much of its name as no other begins with; None when that is none.

    Raises LogError.
    """
    with _reading(path) as connection:
        found = meant(wanted, _begun_in(connection))
        return last_in(connection, found[0]) if len(found) == 1 else None


def begun_from(connection: sqlite3.Connection) -> list[tuple[str, str]]:
    """Every job of an open file with the file that its recipe came from, in the order they were begun.

    That is the end of its path, "" where the beginning cannot be read. Raises sqlite3.Error.
    """
    rows = connection.execute(
        f"SELECT job, body FROM entries WHERE number = 1 AND {_OF_A_JOB} ORDER BY place"
    )
    return [(str(job), PurePath(str(_object(body).get("source", ""))).name) for job, body in rows]


def last_in(connection: sqlite3.Connection, job: str) -> Newest | None:
    """The last entry of a job in an open file; None when there is no such job. Raises sqlite3.Error."""
    row = connection.execute(
        "SELECT number, digest FROM entries WHERE job = ? ORDER BY number DESC LIMIT 1", (job,)
    ).fetchone()
    return Newest(job, int(row[0]), str(row[1])) if row else None


# From name to name through the index, whatever the number of entries to each: GROUP BY would read them all.
_EACH_JOB = """WITH RECURSIVE each (job) AS (
    SELECT min(job) FROM entries
    UNION ALL SELECT (SELECT min(job) FROM entries WHERE job > each.job) FROM each WHERE each.job IS NOT NULL
)"""

# The last entry of each job in the same way, from the last name to the first, with one look for both.
_EACH_LAST = """WITH RECURSIVE last (place, job, at, kind) AS (
    SELECT * FROM (SELECT place, job, at, kind FROM entries ORDER BY job DESC, number DESC LIMIT 1)
    UNION ALL SELECT before.place, before.job, before.at, before.kind FROM last CROSS JOIN entries AS before
        WHERE before.place =
            (SELECT place FROM entries WHERE job < last.job ORDER BY job DESC, number DESC LIMIT 1)
)"""

# When a job was last taken up: of the few whose last entry is about the shop alone, or takes one back, the
# entries before it are looked at.
_TAKEN_UP = f"""CASE WHEN kind NOT IN ('{OF_SHOP_ALONE}', '{TAKES_BACK}') THEN at ELSE (
    SELECT of_job.at FROM entries AS of_job WHERE of_job.job = last.job AND of_job.kind <> '{OF_SHOP_ALONE}'
        AND NOT (of_job.kind = '{TAKES_BACK}' AND EXISTS (SELECT 1 FROM entries AS taken
            WHERE taken.job = of_job.job AND taken.kind = '{OF_SHOP_ALONE}'
            AND taken.number = iif(json_valid(of_job.body), json_extract(of_job.body, '$.entry'), 0)))
        ORDER BY of_job.number DESC LIMIT 1) END"""


def all_last_in(connection: sqlite3.Connection) -> list[Newest]:
    """The last entry of every job in an open file, in the order they were begun. Raises sqlite3.Error."""
    found = {last.job: last for _, last in _placed_last_in(connection)}
    return [found.pop(name) for name in _begun_in(connection) if name in found] + [*found.values()]


def latest_in(connection: sqlite3.Connection) -> list[Newest]:
    """The same, that entry first which was made last. Raises sqlite3.Error."""
    found = sorted(_placed_last_in(connection), reverse=True)
    return [last for _, last in found if not is_of_rack(last.job)]


class WorkKinds(NamedTuple):
    """The names of the kinds of entries that say when a job was worked."""

    at_the_piece: frozenset[str]  # work that the metal stands otherwise after
    seen: frozenset[str]  # what is read of the piece: it counts where nothing else was entered
    strikes: frozenset[str]  # an entry that takes another back


def worked_in(connection: sqlite3.Connection, kinds: WorkKinds) -> list[Newest]:
    """The newest entry of every job that was worked, that first whose last work is the latest.

    It goes by the hour of the work where that was said, else by that of its entry. What is struck out tells
    of no work, and whatever is entered of a job that is done, a reading, a note, moves it nowhere. Raises
    sqlite3.Error.
    """
    found = []
    for _, last in _placed_last_in(connection):
        if not is_of_rack(last.job) and (worked := _last_worked(connection, last.job, kinds)) is not None:
            found.append((*worked, last))
    return [last for *_, last in sorted(found, reverse=True)]


def _last_worked(connection: sqlite3.Connection, job: str, kinds: WorkKinds) -> tuple[str, int] | None:
    """When a job was worked last, and the place of that entry; None where it never was."""
    asked = sorted(kinds.at_the_piece | kinds.seen | kinds.strikes)
    rows = connection.execute(
        "SELECT place, number, at, kind, body FROM entries WHERE job = ? AND kind IN"
        f" ({', '.join('?' * len(asked))}) ORDER BY number DESC",
        (job, *asked),
    )
    struck: set[int] = set()
    read = None
    for place, number, at, kind, body in rows:  # from the last: a strike is met before what it struck
        if number in struck:
            continue
        held = _object(body)
        if kind in kinds.strikes:
            struck |= {int(one) for one in [held.get("entry")] if isinstance(one, int)}
            continue
        worked = (str(held.get("taken_at") or at), int(place))
        if kind in kinds.at_the_piece:
            return worked
        read = read or worked
    return read


def _object(body: str) -> dict[str, object]:
    """What an entry's text holds; nothing where it cannot be read, which is told when its job is opened."""
    try:
        held = json.loads(body)
    except ValueError:
        return {}
    return held if isinstance(held, dict) else {}


def _placed_last_in(connection: sqlite3.Connection) -> list[tuple[int, Newest]]:
    rows = connection.execute(
        f"{_EACH_JOB} SELECT last.place, last.job, last.number, last.digest FROM each JOIN entries AS last"
        " ON last.job = each.job AND last.number = (SELECT max(number) FROM entries WHERE job = each.job)"
    ).fetchall()
    return [(int(place), Newest(str(job), int(number), str(digest))) for place, job, number, digest in rows]


def names_in(connection: sqlite3.Connection) -> list[str]:
    """The jobs in an open file, in the order they were begun; last those whose beginning is lost.

    Raises sqlite3.Error.
    """
    rows = connection.execute(f"{_EACH_JOB} SELECT job FROM each WHERE job IS NOT NULL").fetchall()
    left = dict.fromkeys(str(job) for (job,) in rows if not is_of_rack(str(job)))
    begun = _begun_in(connection)
    for name in begun:
        left.pop(name, None)
    return [*begun, *left]


def _begun_in(connection: sqlite3.Connection) -> list[str]:
    rows = connection.execute("SELECT job FROM entries WHERE number = 1 ORDER BY place").fetchall()
    return [str(job) for (job,) in rows if not is_of_rack(str(job))]


@contextmanager
def _reading(path: Path) -> Iterator[sqlite3.Connection]:
    try:
        with closing(connect(path, read_only=True, wait_s=0.5)) as connection:
            for pragma, ours in (("application_id", APPLICATION_ID), ("user_version", len(LAYOUTS))):
                if whole_number(connection, pragma) != ours:
                    raise sqlite3.DatabaseError("this is no log of this version")
            if not is_laid_out_as_ours(connection):
                raise sqlite3.DatabaseError("this is laid out as no log is")
            yield connection
    except (sqlite3.Error, UnicodeEncodeError) as error:
        found = error if isinstance(error, sqlite3.Error) else sqlite3.DatabaseError(str(error))
        raise from_sqlite(found, path) from error
