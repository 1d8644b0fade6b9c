"""The SQLite file under the log: how it is laid out, made, opened and copied whole."""

from __future__ import annotations

import os
import sqlite3
from collections.abc import Iterator
from contextlib import ExitStack, closing, contextmanager, suppress
from functools import cache
from itertools import chain, count
from pathlib import Path

from coach.files import contents
from coach.log.errors import (
    COPIES_LISTED,
    RESTORES,
    LogEmpty,
    LogReadOnly,
    LogUnusable,
    from_code,
    from_sqlite,
    from_system,
)
from coach.written import largest_file, made_beside, name_it, sync

IN_MEMORY = Path(":memory:")
"""The name of a log that is thrown away when it is closed."""

APPLICATION_ID = int.from_bytes(b"BtHe")
"""Marks the file as ours (https://www.sqlite.org/pragma.html#pragma_application_id)."""

# The guard on INSERT also stops INSERT OR REPLACE, which would remove a row without firing the guard
# on DELETE.
_FIRST_LAYOUT = (
    f"PRAGMA application_id = {APPLICATION_ID}",
    """CREATE TABLE entries (
        place INTEGER PRIMARY KEY,
        job TEXT NOT NULL CHECK (job <> ''),
        number INTEGER NOT NULL CHECK (number >= 1),
        at TEXT NOT NULL,
        kind TEXT NOT NULL,
        body TEXT NOT NULL,
        previous TEXT NOT NULL,
        digest TEXT NOT NULL,
        UNIQUE (job, number)
    ) STRICT""",
    "CREATE INDEX beginnings ON entries (place, job) WHERE number = 1",
    """CREATE TRIGGER entries_only_follow BEFORE INSERT ON entries
        WHEN NEW.number <> (SELECT coalesce(max(number), 0) + 1 FROM entries WHERE job = NEW.job)
          OR EXISTS (SELECT 1 FROM entries WHERE place = NEW.place)
        BEGIN SELECT RAISE(ABORT, 'an entry must follow the last one of its job'); END""",
    """CREATE TRIGGER entries_never_change BEFORE UPDATE ON entries
        BEGIN SELECT RAISE(ABORT, 'an entry is never changed'); END""",
    """CREATE TRIGGER entries_never_go BEFORE DELETE ON entries
        BEGIN SELECT RAISE(ABORT, 'an entry is never removed'); END""",
)

LAYOUTS: tuple[tuple[str, ...], ...] = (_FIRST_LAYOUT,)
"""What to do to a file of version 0, 1, 2… to make it one version newer; version 0 is a new file."""


def open_file(path: Path, read_only: bool, wait_s: float, *, whole: bool = True) -> sqlite3.Connection:
    """Return a connection to the log at `path`, made when missing, checked, and brought up to date.

    `wait_s` is how many seconds to wait for another window's entry; `whole` is whether to look through the
    whole file for damage, which takes as long as the log is large. Raises a LogError.
    """
    try:
        if path != IN_MEMORY:
            _prepare(path, read_only)
        with ExitStack() as until_checked:
            connection = until_checked.enter_context(closing(connect(path, read_only, wait_s)))
            _check(connection, path, read_only, whole=whole)
            if not read_only:
                connection.execute("PRAGMA journal_mode = DELETE").fetchall()
            until_checked.pop_all()
    except OSError as error:
        raise from_system(error, path) from error
    except sqlite3.Error as error:
        raise from_sqlite(error, path) from error
    return connection


def connect(path: Path, read_only: bool, wait_s: float) -> sqlite3.Connection:
    """Return a bare connection to `path`, set so that a commit that has returned is on the disk.

    Raises sqlite3.Error. https://www.sqlite.org/pragma.html#pragma_synchronous
    """
    mode = "ro" if read_only else "rw"
    address = "file::memory:" if path == IN_MEMORY else f"{path.absolute().as_uri()}?mode={mode}"
    connection = sqlite3.connect(address, uri=True, timeout=wait_s, isolation_level=None)
    # A damaged text must come back to be judged by its digest, not stop the reading of the rest.
    connection.text_factory = lambda raw: raw.decode("utf-8", "surrogateescape")
    try:
        connection.execute("PRAGMA trusted_schema = 0")
        connection.execute("PRAGMA foreign_keys = 1")
        connection.execute("PRAGMA synchronous = EXTRA")
        connection.execute("PRAGMA fullfsync = 1")
    except UnicodeDecodeError as error:
        # SQLite complains of how the file is laid out, and quotes what is there.
        connection.close()
        damage = sqlite3.DatabaseError("how it is laid out cannot be read")
        damage.sqlite_errorname = "SQLITE_CORRUPT"
        raise damage from error
    if path == IN_MEMORY:
        bring_up(connection)
    if read_only:
        connection.execute("PRAGMA query_only = 1")
    return connection


def bring_up(connection: sqlite3.Connection) -> None:
    """Bring a file of any earlier version to the newest, in one transaction. Raises sqlite3.Error."""
    with transaction(connection):
        # Read inside the transaction: another window may just have done the same.
        for version in range(whole_number(connection, "user_version"), len(LAYOUTS)):
            for statement in LAYOUTS[version]:
                connection.execute(statement)
            connection.execute(f"PRAGMA user_version = {version + 1}")


def refuse_what_cannot_be_undone(path: Path) -> None:
    """Raise LogFull for a log larger than a file may be: half an entry could not be taken back in it."""
    most = largest_file()
    if most is not None and path != IN_MEMORY and path.stat().st_size > most:
        raise from_code("TOO_LARGE", path)


@contextmanager
def transaction(connection: sqlite3.Connection) -> Iterator[None]:
    """All that is written meanwhile or none of it, while nobody else writes. Raises sqlite3.Error."""
    connection.execute("BEGIN IMMEDIATE")
    try:
        yield
        connection.execute("COMMIT")
    except BaseException:
        # SQLite has already undone it after some failures, a full disk among them.
        if connection.in_transaction:
            with suppress(sqlite3.Error):
                connection.execute("ROLLBACK")
        raise


def copy_whole(connection: sqlite3.Connection, source: Path, target: Path) -> None:
    """Write the log `source`, open as `connection`, to `target`, which appears whole or not at all.

    Folders are made when missing. Raises a LogError that names whichever of the two files failed.
    """
    try:
        target.parent.mkdir(parents=True, exist_ok=True)
        with made_beside(target) as part:
            # Connection.backup waits for ever on a locked source, so the lock is taken here first.
            connection.execute("BEGIN")
            try:
                connection.execute("SELECT count(*) FROM sqlite_schema").fetchall()
                _fill(part, connection)
            finally:
                if connection.in_transaction:
                    connection.execute("ROLLBACK")
            sync(part)
            os.replace(part, target)
        sync(target.parent)
    except OSError as error:
        raise from_system(error, target) from error
    except sqlite3.Error as error:
        name = str(getattr(error, "sqlite_errorname", ""))
        raise from_sqlite(error, target if name.startswith(_FAULTS_OF_A_TARGET) else source) from error


# Reading under a lock that is already held cannot give these; writing the copy can.
_FAULTS_OF_A_TARGET = ("SQLITE_FULL", "SQLITE_CANTOPEN", "SQLITE_READONLY", "SQLITE_IOERR_WRITE")


def _fill(part: Path, source: sqlite3.Connection | None) -> None:
    """Write a whole file that nobody else knows of yet: a copy of `source`, or a new log."""
    connection = sqlite3.connect(part, isolation_level=None)
    try:
        # Until it gets its name it may as well be lost, so it needs no journal that might be left behind.
        connection.execute("PRAGMA journal_mode = MEMORY").fetchall()
        connection.execute("PRAGMA synchronous = OFF")
        if source is None:
            bring_up(connection)
        else:
            source.backup(connection)
    finally:
        connection.close()


def _prepare(path: Path, read_only: bool) -> None:
    if path.is_dir():
        raise LogUnusable(f"{path.name or path} is a folder, not a log: name a file.")
    refuse_broken_link(path)
    if not read_only:
        refuse_what_sqlite_would_take(path)
    if not path.exists():
        if read_only:
            raise LogUnusable(f"There is no {path.name} to read: check its name and folder.")
        _make(path)
    if not os.access(path, os.R_OK):
        raise LogUnusable(f"{path.name} may not be read: look at its permissions.")
    # SQLite opens a file it may not write without a word and complains only at the first entry.
    if not read_only and not (os.access(path, os.W_OK) and os.access(path.parent, os.W_OK)):
        raise LogReadOnly(
            f"{path.name} cannot be written here: allow writing to it and its folder, or open it for reading"
            " only."
        )


def refuse_what_sqlite_would_take(path: Path) -> None:
    """Raise LogUnusable where another file has the name that SQLite needs beside a log: it would be gone.

    Of a journal that was never finished the first bytes may be none, or nothing.
    """
    real = os.path.realpath(path)  # SQLite keeps them beside what a link leads to
    for beside in (Path(f"{real}{end}") for end in _BESIDE[:2]):
        try:
            head = contents(beside, 8) if os.path.lexists(beside) else b""
        except OSError:
            continue  # that it cannot be read is told when it is needed
        if head.strip(b"\0") and not any(head.startswith(one[: len(head)]) for one in _JOURNALS):
            raise LogUnusable(
                f"{beside} has the name that the journal of {path.name} needs, and is none: move it, or name"
                " another log."
            )


def refuse_broken_link(path: Path) -> None:
    """Raise LogUnusable for a link to nothing: where a stick is out, its log must not be begun anew."""
    if path.is_symlink() and not path.exists():
        raise LogUnusable(
            f"{path.name} is a link to {os.readlink(path)}, which is not there: bring that back, or remove"
            " the link."
        )


def is_part_of_a_log(path: Path, log: Path) -> bool:
    """Whether a file is a log, damaged or not, is the one at `log`, or is kept beside either by SQLite."""
    beside = [path.with_name(path.name.removesuffix(end)) for end in _BESIDE if path.name.endswith(end)]
    ours = os.path.realpath(log)
    return any(os.path.realpath(one) == ours or is_a_log(one) for one in (path, *beside))


def is_a_log(path: Path) -> bool:
    """Whether a file is a log or a journal of one, or holds anything of a log that was damaged."""
    try:
        head = contents(path, 72)
        # The application id is at offset 68: https://www.sqlite.org/fileformat.html
        marked = head.startswith(b"SQLite format 3\0") and head[68:] == APPLICATION_ID.to_bytes(4)
        if marked or head.startswith(_JOURNALS):
            return True
        from coach.log.salvage import salvage

        return bool(salvage(path).rows)
    except (OSError, ValueError):
        return False


# What begins a rollback journal and a write-ahead log: https://www.sqlite.org/fileformat.html, 3 and 4.1. The
# file that one belongs to may be gone, and be taken back by it.
_JOURNALS = (bytes.fromhex("d9d505f920a163d7"), bytes.fromhex("377f0682"), bytes.fromhex("377f0683"))
_BESIDE = ("-journal", "-wal", "-shm")


def journal_of(path: Path) -> Path:
    """Where SQLite keeps what it needs to undo half an entry: https://www.sqlite.org/tempfiles.html."""
    return path.with_name(f"{path.name}-journal")


def _make(path: Path) -> None:
    """Make a new log; where another window makes it meanwhile, that one stays."""
    # A journal whose log is gone would be played back into the new one.
    if not path.exists():
        journal_of(path).unlink(missing_ok=True)
    path.parent.mkdir(parents=True, exist_ok=True)
    with made_beside(path) as part:
        _fill(part, None)
        sync(part)
        with suppress(FileExistsError):
            name_it(part, path)
    sync(path.parent)


def forget_if_empty(path: Path) -> None:
    """Remove a log that holds no entry, where nobody else is at it; whoever has it open is told at his next.

    Raises nothing: where it cannot be removed it stays.
    """
    with suppress(OSError, sqlite3.Error), closing(connect(path, read_only=False, wait_s=0.0)) as connection:
        connection.execute("BEGIN EXCLUSIVE")  # what is entered meanwhile waits, and then finds it moved
        if is_laid_out_as_ours(connection) and not connection.execute("SELECT 1 FROM entries").fetchone():
            os.unlink(os.path.realpath(path))


def _check(connection: sqlite3.Connection, path: Path, read_only: bool, *, whole: bool) -> None:
    application_id = whole_number(connection, "application_id")
    if application_id != APPLICATION_ID:
        empty = application_id == 0 and whole_number(connection, "page_count") == 0
        if empty and path.is_file() and path.stat().st_size:  # one byte is nothing to SQLite, but somebody's
            raise LogUnusable(f"{path.name} is not a log: choose another file; if it was one, {RESTORES}.")
        if empty:
            raise LogEmpty(
                f"{path.name} is empty: {COPIES_LISTED}; where there is none, delete it and a new log will be"
                " made, or choose another file."
            )
        raise LogUnusable(
            f"{path.name} belongs to another program: choose another file; if it was a log, {RESTORES}."
        )
    version = whole_number(connection, "user_version")
    if version > len(LAYOUTS):
        raise LogUnusable(
            f"{path.name} is a log of version {version} and this program reads up to version {len(LAYOUTS)}:"
            f" install the newer program; if none wrote it, {RESTORES}."
        )
    if not is_laid_out_as_ours(connection):
        raise from_code("SQLITE_CORRUPT", path)
    # quick_check is little faster and would pass an index that no longer agrees with its table; the last
    # entries of a job could then be missed without a word.
    if whole and connection.execute("PRAGMA integrity_check").fetchall() != [("ok",)]:
        raise from_code("SQLITE_CORRUPT", path)
    if version < len(LAYOUTS):
        _bring_up_old(connection, path, version, read_only)


# What SQLite itself adds, an index for each UNIQUE and what ANALYZE counts, is no part of a layout.
_LAID_OUT = """SELECT type, name, tbl_name, sql FROM sqlite_schema WHERE sql IS NOT NULL
    AND NOT (type = 'table' AND name IN ('sqlite_stat1', 'sqlite_stat4')) ORDER BY type, name"""


def is_laid_out_as_ours(connection: sqlite3.Connection) -> bool:
    """Whether there is nothing in a file but what this program makes in one of its version.

    A view in the place of the entries may have no end, and a trigger may drop what was just acknowledged:
    nothing is asked of such a file. Raises sqlite3.Error.
    """
    version = whole_number(connection, "user_version")
    laid_out = connection.execute(_LAID_OUT).fetchall()
    return 0 <= version <= len(LAYOUTS) and laid_out == _layout(LAYOUTS[:version])


@cache
def _layout(versions: tuple[tuple[str, ...], ...]) -> list[tuple[str, str, str, str]]:
    with closing(sqlite3.connect(":memory:")) as connection:
        for statement in chain.from_iterable(versions):
            connection.execute(statement)
        return connection.execute(_LAID_OUT).fetchall()


def _bring_up_old(connection: sqlite3.Connection, path: Path, version: int, read_only: bool) -> None:
    if read_only:
        raise LogUnusable(
            f"{path.name} is a log of version {version}, older than this program's: open it once for writing."
        )
    stem = f"{path.stem}-version-{version}"
    names = chain([stem], (f"{stem}-{number}" for number in count(2)))
    asides = (path.with_name(f"{name}{path.suffix}") for name in names)
    copy_whole(connection, path, next(aside for aside in asides if not os.path.lexists(aside)))
    bring_up(connection)


def whole_number(connection: sqlite3.Connection, pragma: str) -> int:
    """What a setting of an open file is. Raises sqlite3.Error."""
    return int(connection.execute(f"PRAGMA {pragma}").fetchone()[0])
