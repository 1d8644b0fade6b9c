"""The log: one file that holds every job as a list of entries which is only ever added to."""

from __future__ import annotations

import os
import sqlite3
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager, suppress
from functools import cache
from pathlib import Path
from typing import Self

from coach.log.body import Body
from coach.log.entries import (
    FIRST_PREVIOUS,
    Chain,
    Entry,
    make_entry,
    numbers_of,
    read_chain,
)
from coach.log.errors import (
    TAKE_BACK,
    EntryRefused,
    JobExists,
    LogDamaged,
    LogError,
    NoSuchJob,
    OutOfDate,
    fact_alone,
    from_code,
    from_sqlite,
    from_system,
)
from coach.log.file import (
    IN_MEMORY,
    copy_whole,
    open_file,
    refuse_what_cannot_be_undone,
    transaction,
    whole_number,
)
from coach.log.kinds import kinds
from coach.log.kinds.struck import Struck
from coach.log.names import JOB_NAMES, LONGEST_JOB, RACK, is_kept_name
from coach.log.newest import (
    Newest,
    WorkKinds,
    all_last_in,
    begun_from,
    last_in,
    latest_in,
    names_in,
    worked_in,
)


class Log:
    """The entries of every job in one SQLite file.

    Several windows and programs may have the same file open. No lock is held between calls: an entry is
    accepted only when it follows the last one its writer has seen, and it is on the disk before the call
    returns. Every method raises a LogError, and nothing else, for what a disk, a file or another window
    can cause. A Log belongs to the thread that opened it.
    """

    def __init__(
        self, path: Path | str, *, read_only: bool = False, wait_s: float = 0.5, whole: bool = True
    ) -> None:
        """Open the log at `path`, or make it (with its folders) when there is none.

        `":memory:"` is a log that is thrown away on closing. `wait_s` is how many seconds to wait for
        another window to finish its entry; `whole` is whether the whole file is looked through for damage.
        Without it a job's own entries are still checked, as they always are when they are read.
        """
        self.path = Path(path)
        self.read_only = read_only
        self._connection = open_file(self.path, read_only, wait_s, whole=whole)
        try:
            self._last_data_version = self._data_version()
        except LogError:
            self._connection.close()
            raise

    def close(self) -> None:
        """Let go of the file; closing twice does no harm."""
        with self._plainly():
            self._connection.close()

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        self.close()

    def jobs(self) -> list[str]:
        """Return the names of all jobs, in the order they were begun."""
        with self._plainly():
            return names_in(self._connection)

    def begun_from(self) -> list[tuple[str, str]]:
        """Return every job with the name of the file its recipe came from, in the order they were begun."""
        with self._plainly():
            return begun_from(self._connection)

    def newest(self) -> list[Newest]:
        """Return the newest entry of every job, in the order they were begun."""
        with self._plainly():
            return all_last_in(self._connection)

    def latest_first(self) -> list[Newest]:
        """The same, that job first which was last touched."""
        with self._plainly():
            return latest_in(self._connection)

    def last_worked_first(self) -> list[Newest]:
        """The newest entry of every job that was worked, that job first which was worked last."""
        with self._plainly():
            return worked_in(self._connection, _work_kinds())

    def last_number(self, job: str) -> int:
        """Return the number of the job's newest entry. Raises NoSuchJob."""
        with self._plainly():
            return self._last(job).number

    def entries(self, job: str, after: int = 0) -> list[Entry]:
        """Return the job's entries with a number above `after`, in order, each checked against its seal.

        Raises NoSuchJob, and LogDamaged with the entries before the first damaged one.
        """
        with self._plainly():
            chain = self._chain(job, after)
        if chain.faults:
            number, fault = chain.faults[0]
            told = f"{self._damaged(job, number, fault)}: {TAKE_BACK}."
            raise LogDamaged(told, job, number, chain.sound, fault)
        return [entry for entry in chain.sound if entry.number > after]

    def holds(self, ends: Iterable[Newest]) -> bool:
        """Whether all these entries are here, and so all that they seal."""
        there = "SELECT 1 FROM entries WHERE job = ? AND number = ? AND digest = ?"
        with self._plainly():
            return all(self._connection.execute(there, tuple(end)).fetchone() for end in ends)

    def begin(self, job: str, at: str, body: Body, cuts: tuple[int, Sequence[Body]] | None = None) -> Entry:
        """Begin a new job and return its first entry. Raises JobExists and EntryRefused.

        `cuts` are what is taken off the rack for it, behind the number of the last entry of the rack that was
        seen; see `add_to_rack`.
        """
        return self.begin_with(job, [(at, body)], cuts)[0]

    def rack(self) -> list[Entry]:
        """The entries of the rack; none where nothing was ever laid on it. See `entries`."""
        with suppress(NoSuchJob):
            return self.entries(RACK)
        return []

    def add_to_rack(self, after: int, at: str, bodies: Sequence[Body]) -> list[Entry]:
        """Add entries of the rack, all of them or none, behind the last one that was seen; 0 for none.

        Raises OutOfDate and EntryRefused, as `append` does.
        """
        with self._writing():
            return self._add_rack(after, at, bodies)

    def _add_rack(self, after: int, at: str, bodies: Sequence[Body]) -> list[Entry]:
        last = last_in(self._connection, RACK) or Newest(RACK, 0, FIRST_PREVIOUS)
        if last.number != after:
            raise self._out_of_date(RACK, after, last.number)
        return self._add(last, [(at, body) for body in bodies])

    def begin_with(
        self,
        job: str,
        items: Sequence[tuple[str, Body]],
        cuts: tuple[int, Sequence[Body]] | None = None,
    ) -> list[Entry]:
        """Begin a new job with entries made elsewhere (moment, body), all of them or none; see `begin`.

        Raises JobExists and EntryRefused.
        """
        if not is_kept_name(job):
            name = job[:LONGEST_JOB]
            raise EntryRefused(
                f"No job was begun in {self.path.name}: {name!r} cannot be its name, which takes {JOB_NAMES}."
            )
        if not items:
            raise EntryRefused(f"No job was begun in {self.path.name}: {job!r} lacks its beginning.")
        with self._writing():
            with suppress(NoSuchJob):
                self._last(job)
                raise JobExists(f"{self.path.name} already has a job {job!r}: choose another name.", job)
            if cuts is not None:
                self._add_rack(cuts[0], items[0][0], cuts[1])
            return self._add(Newest(job, 0, FIRST_PREVIOUS), items)

    def append(self, job: str, after: int, at: str, body: Body) -> Entry:
        """Add one entry and return it once it is on the disk.

        `after` is the number of the last entry the writer has seen. Raises OutOfDate, with the entries
        missed, when it is not the job's last; NoSuchJob; EntryRefused.
        """
        return self.append_many(job, after, at, [body])[0]

    def append_many(self, job: str, after: int, at: str, bodies: Sequence[Body]) -> list[Entry]:
        """Add several entries that belong together: all of them or none. See `append`."""
        return self.append_items(job, after, [(at, body) for body in bodies])

    def append_items(self, job: str, after: int, items: Sequence[tuple[str, Body]]) -> list[Entry]:
        """Add several entries made elsewhere (moment, body): all of them or none. See `append`."""
        with self._writing():
            last = self._last(job)
            if after != last.number:
                raise self._out_of_date(job, after, last.number)
            return self._add(last, items)

    def changed(self) -> bool:
        """Say whether another window or program has written since this was last asked, or since opening."""
        version = self._data_version()
        changed = version != self._last_data_version
        self._last_data_version = version
        return changed

    def verify(self) -> list[str]:
        """Check the whole file and every job in it; return each fault as a sentence, none when sound."""
        faults: list[str] = []
        try:
            with self._plainly():
                found = self._connection.execute("PRAGMA integrity_check").fetchall()
                faults += [f"{self.path.name} is damaged: {text}." for (text,) in found if text != "ok"]
                names = self._connection.execute("SELECT DISTINCT job FROM entries ORDER BY job").fetchall()
                for (job,) in names:
                    faults += self._faults_of(str(job))
        except LogDamaged as damage:
            faults.append(fact_alone(str(damage)))
        return faults

    def save_copy(self, path: Path) -> None:
        """Write a copy of the whole log to `path`, replacing what is there only once the copy is whole.

        The copy can be opened as a log. Never copy the bare file instead: an entry may be half-way in.
        """
        if self.path != IN_MEMORY and os.path.realpath(path) == os.path.realpath(self.path):
            raise LogError(f"{path.name} is the log itself: name another file for the copy.")
        with self._plainly():
            copy_whole(self._connection, self.path, path)

    @contextmanager
    def _plainly(self) -> Iterator[None]:
        try:
            yield
        except sqlite3.Error as error:
            raise from_sqlite(error, self.path) from error
        except OSError as error:
            raise from_system(error, self.path) from error
        except UnicodeDecodeError as error:  # SQLite quotes, in a complaint, what is no text any more
            raise from_code("SQLITE_CORRUPT", self.path) from error
        except UnicodeEncodeError as error:
            raise NoSuchJob(f"{self.path.name} has no job {error.object!r}: check its name.") from error

    @contextmanager
    def _writing(self) -> Iterator[None]:
        with self._plainly():
            refuse_what_cannot_be_undone(self.path)
            with transaction(self._connection):
                yield

    def _add(self, last: Newest, items: Sequence[tuple[str, Body]]) -> list[Entry]:
        added: list[Entry] = []
        job, begun, previous = last
        for number, (at, body) in enumerate(items, begun + 1):
            try:
                entry, body_json = make_entry(job, number, at, body, previous)
                self._check_meant(job, body)
            except ValueError as error:
                raise EntryRefused(
                    f"Entry {number} ({body.KIND}) was not written to {self.path.name}: {error}"
                    f"{'' if str(error).endswith('.') else '.'}"
                ) from error
            self._connection.execute(
                "INSERT INTO entries (job, number, at, kind, body, previous, digest)"
                " VALUES (?, ?, ?, ?, ?, ?, ?)",
                (job, number, at, body.KIND, body_json, previous, entry.digest),
            )
            added.append(entry)
            previous = entry.digest
        return added

    def _check_meant(self, job: str, body: Body) -> None:
        """Raise OutOfLimits when an entry speaks of one before it that is not there or cannot be meant."""
        for name, number in body.meant().items():
            row = self._connection.execute(
                "SELECT kind FROM entries WHERE job = ? AND number = ?", (job, number)
            ).fetchone()
            kind = None if row is None else kinds().get(str(row[0]))
            if kind is None or not body.can_mean(name, kind):
                raise body.refused(name, str(number))

    def _last(self, job: str) -> Newest:
        last = last_in(self._connection, job)
        if last is None:
            raise NoSuchJob(f"{self.path.name} has no job {job!r}: check its name.")
        return last

    def _chain(self, job: str, after: int) -> Chain:
        # Reading from entry `after` itself gives the digest that the next one must follow.
        first = max(after, 1)
        rows = self._connection.execute(
            "SELECT number, at, kind, body, previous, digest FROM entries"
            " WHERE job = ? AND number >= ? ORDER BY number",
            (job, first),
        ).fetchall()
        if not rows:
            self._last(job)
        return read_chain(job, rows, first, FIRST_PREVIOUS if first == 1 else None)

    def _faults_of(self, job: str) -> list[str]:
        try:
            chain = self._chain(job, 0)
        except UnicodeEncodeError:
            return [f"{self.path.name} is damaged: the name of a job cannot be read ({job!r})."]
        return [f"{self._damaged(job, number, fault)}." for number, fault in chain.faults]

    def _out_of_date(self, job: str, after: int, last: int) -> LogError:
        if job == RACK:
            return OutOfDate("The rack was changed elsewhere: look at it and enter yours again.", ())
        if after > last:
            return OutOfDate(
                f"Job {job!r} in {self.path.name} ends at entry {last}, but entry {after} was already seen:"
                " an older copy has taken its place, so open the job again.",
                (),
            )
        missed = tuple(self.entries(job, after))
        return OutOfDate(
            f"Another window or a command has entered something for {job!r} meanwhile ({numbers_of(missed)}):"
            " look at that and enter yours again.",
            missed,
        )

    def _damaged(self, job: str, number: int, fault: str) -> str:
        return f"Job {job!r} in {self.path.name} is damaged, entry {number} {fault}"

    def _data_version(self) -> int:
        with self._plainly():
            return whole_number(self._connection, "data_version")


@cache
def _work_kinds() -> WorkKinds:
    work = {name: one for name, one in kinds().items() if one.IS_WORK}
    moves = frozenset(name for name, one in work.items() if one.MOVES_METAL)
    strikes = frozenset(name for name, one in kinds().items() if issubclass(one, Struck))
    return WorkKinds(moves, frozenset(work) - moves, strikes)
