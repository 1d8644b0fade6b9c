"""Everything that can keep the log from being read or written, each as one plain sentence."""

from __future__ import annotations

import errno
import os
import sqlite3
from collections.abc import Mapping
from pathlib import Path

from coach.log.entries import Entry
from coach.quantities.refusal import Refusal
from coach.written import why_not_written


class LogError(Refusal):
    """The log could not do what was asked; `str()` says what, in which file, and what to do."""


class LogBusy(LogError):
    """Another window or program holds the file."""


class LogFull(LogError):
    """There is no room left for another entry."""


class LogReadOnly(LogError):
    """The file, its folder or this way of opening it allows no writing."""


class LogUnusable(LogError):
    """The file is not a log of ours, or a newer program wrote it."""


class LogEmpty(LogUnusable):
    """The file holds nothing at all."""


class LogMissing(LogError):
    """There is no log where copies of it are."""


class JobExists(LogError):
    """A job of that name has already begun."""

    def __init__(self, sentence: str, job: str) -> None:
        super().__init__(sentence)
        self.job = job
        """Its name."""


class NoSuchJob(LogError):
    """No job of that name is in the log."""


class EntryRefused(LogError):
    """An entry that cannot be written down as it stands."""


RESTORES = "`coach restore` takes back what is sound"

COPIES_LISTED = f"{RESTORES} and `coach backups` lists the copies"

TAKE_BACK = f"{RESTORES}, `coach backups` lists the copies and `coach check-log` tells what is damaged"
"""What to do where an entry is damaged."""


def fact_alone(sentence: str) -> str:
    """What is said of a damaged log without what to do, which whoever tells several faults says once."""
    for joint in ("; ", ": "):
        sentence = sentence.replace(f"{joint}{TAKE_BACK}", "")
    return f"{sentence.partition(f': {COPIES_LISTED}')[0].removesuffix('.')}."


class LogDamaged(LogError):
    """What is in the file is not what was written there."""

    def __init__(
        self,
        sentence: str,
        job: str = "",
        number: int = 0,
        sound: tuple[Entry, ...] = (),
        fault: str = "",
    ) -> None:
        super().__init__(sentence)
        self.job = job
        """Name of the job that is damaged; empty when it is the file as a whole."""
        self.number = number
        """Number of the first damaged entry; 0 when it is the file as a whole."""
        self.sound = sound
        """The entries read before the damage."""
        self.fault = fault
        """What is wrong with the entry, to go on after its number; empty when it is the file as a whole."""


class OutOfDate(LogError):
    """An entry that does not follow the last one its writer has seen."""

    def __init__(self, sentence: str, missed: tuple[Entry, ...]) -> None:
        super().__init__(sentence)
        self.missed = missed
        """The entries others made since; empty when the log is shorter than its writer remembers."""


_NOTHING_LOST = "nothing more was saved and nothing saved before is lost"
_IN_USE = "{file} is in use by another window or program: wait a moment and do it again."

# Names of result codes: https://www.sqlite.org/rescode.html
_BY_CODE: dict[str, tuple[type[LogError], str]] = {
    "SQLITE_READONLY_DBMOVED": (
        LogError,
        "{file} was moved or replaced while it was open, so nothing was saved: open it again.",
    ),
    "SQLITE_READONLY_ROLLBACK": (
        LogReadOnly,
        "{file} was left in the middle of an entry and must first be opened where it can be written.",
    ),
    "SQLITE_BUSY": (LogBusy, _IN_USE),
    "SQLITE_LOCKED": (LogBusy, _IN_USE),
    "SQLITE_FULL": (
        LogFull,
        (f"There is no room left on the disk for {{file}}: {_NOTHING_LOST}, so make room and do it again."),
    ),
    # These two SQLite does not tell from a disk that fails.
    "QUOTA": (
        LogFull,
        (
            f"There is no room left for {{file}}, for your share of the disk is used up: {_NOTHING_LOST}, so"
            " make room or have more given to you and do it again."
        ),
    ),
    "TOO_LARGE": (
        LogFull,
        (
            f"{{file}} cannot grow, for no file may be as large as that here: {_NOTHING_LOST}, so allow"
            " larger ones (see `ulimit -f`) and do it again."
        ),
    ),
    "SQLITE_READONLY": (
        LogReadOnly,
        (
            "{file} cannot be written here, so nothing was saved: allow writing to it and its folder, or"
            " move it to where that is allowed."
        ),
    ),
    "SQLITE_CANTOPEN": (
        LogError,
        "{file} or its folder cannot be opened: check that both exist and that you may use them.",
    ),
    "SQLITE_NOTADB": (
        LogUnusable,
        (
            "{file} is not a log: choose another file; if it was one, `coach restore` takes back what is"
            " sound from the copies that `coach backups` lists."
        ),
    ),
    "SQLITE_CORRUPT": (
        LogDamaged,
        f"{{file}} is damaged: keep it as it is; {TAKE_BACK}.",
    ),
    "SQLITE_IOERR": (
        LogError,
        (
            "The disk failed while {file} was in use: check the disk, then open the job again to see whether"
            " the last entry is there."
        ),
    ),
}


_NOT_WRITTEN = ("SQLITE_IOERR_WRITE", "SQLITE_IOERR_FSYNC", "SQLITE_IOERR_TRUNCATE", "SQLITE_IOERR_CLOSE")
_BY_ERRNO: Mapping[int | None, str] = {
    errno.ENOSPC: "SQLITE_FULL",
    errno.EDQUOT: "QUOTA",
    errno.EFBIG: "TOO_LARGE",
    errno.EACCES: "SQLITE_READONLY",
    errno.EPERM: "SQLITE_READONLY",
    errno.EROFS: "SQLITE_READONLY",
}


def from_sqlite(error: sqlite3.Error, path: Path) -> LogError:
    """Return SQLite's complaint about the log at `path` as one of ours."""
    name = str(getattr(error, "sqlite_errorname", ""))
    family = "_".join(name.split("_")[:2])
    if family == "SQLITE_CANTOPEN" and os.path.isdir(path.parent) and not os.access(path.parent, os.W_OK):
        name = family = "SQLITE_READONLY"  # the file, or the journal beside it, could not be made
    code = name if name in _BY_CODE else family
    if name in _NOT_WRITTEN:
        code = _BY_ERRNO.get(why_not_written(path), code)
    if code not in _BY_CODE:
        return LogError(f"{_called(path)} could not be used ({error}): close it and open it again.")
    return from_code(code, path)


def from_code(code: str, path: Path) -> LogError:
    """Return what one of SQLite's result codes means for the log at `path`."""
    kind, sentence = _BY_CODE[code]
    told = sentence.format(file=_called(path))
    return kind(f"{told[:1].upper()}{told[1:]}" if _is_being_made(path) else told)


def from_system(error: OSError, path: Path) -> LogError:
    """Return the operating system's complaint about the file at `path` as one of ours."""
    if error.errno in _BY_ERRNO:
        return from_code(_BY_ERRNO[error.errno], path)
    reason = error.strerror or type(error).__name__
    return LogError(f"{_called(path)} could not be reached ({reason}): check the disk and the folder.")


def _called(path: Path) -> str:
    """What a file is called where it is told of; one that is only being made has no name of its own yet."""
    return f"a new file in {path.parent}" if _is_being_made(path) else path.name


def _is_being_made(path: Path) -> bool:
    return path.name.startswith(".") and path.name.endswith(".part")
