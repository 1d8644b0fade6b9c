"""A log made whole from its copies and from what is still sound in it; the file as it was is kept."""

from __future__ import annotations

import os
import re
import shutil
import sqlite3
from collections.abc import Iterator, Sequence
from contextlib import contextmanager, suppress
from itertools import count, takewhile
from pathlib import Path
from typing import NamedTuple

from coach.log.body import Body
from coach.log.entries import Entry
from coach.log.errors import LogBusy, LogError, LogMissing, LogUnusable, NoSuchJob, from_sqlite, from_system
from coach.log.file import (
    connect,
    is_a_log,
    journal_of,
    refuse_broken_link,
    refuse_what_sqlite_would_take,
)
from coach.log.jobs import Log
from coach.log.looking_through import Found, chains_of, find_all, half_entry_undone
from coach.log.names import LONGEST_JOB, is_of_rack
from coach.log.newest import Newest, newest_of_all
from coach.log.salvage import Row
from coach.written import name_it, sync


class CutOff(NamedTuple):
    """An entry that is sound in a damaged file but follows one that is sound nowhere, so it is lost too."""

    number: int
    at: str  # the moment it was entered
    kind: str  # what sort of entry it is
    body: str  # what it says, as the log has it


class ChangedJob(NamedTuple):
    """A job that is otherwise in a restored log than it was before."""

    job: str  # its name
    entries: int  # how many entries it has now
    won: int  # how many of them could not be read before
    lost: int  # how many the damaged file had besides
    cut_off: tuple[CutOff, ...] = ()  # those of the lost ones that are sound by themselves


class Restored(NamedTuple):
    """What restoring a log brings."""

    file: str  # the log
    aside: str  # where it is kept as it was; empty when there was none or nothing was changed
    taken_from: tuple[str, ...]  # the copies that something was taken from
    entries: int  # how many entries there are now
    jobs: tuple[str, ...]  # the jobs there are now
    changes: tuple[ChangedJob, ...]  # those that are not as they were
    unread: int  # of how many pages of the file as it was nobody can tell what was in them
    unreadable: bool  # whether nothing at all could be read in it


def restore(log: Path, copies: Sequence[Path], at: str, *, only_look: bool = False) -> Restored:
    """Make a log whole from copies of it, the most wanted first, and from what is sound in it.

    Whatever is sound in any of them is in it afterwards: of two jobs that have one name and part ways, the
    second gets another name. The file as it was and its journal are kept beside it, `at` in their names. A
    log that is sound and to which no copy adds anything is left as it is; with `only_look` any log is.

    So is one of which no job's beginning is sound anywhere: what can be read in it is told as cut off.

    Where the log is a link, what it leads to is only replaced when it holds anything of a log.

    Raises LogMissing when nothing sound is found, LogBusy while another window makes an entry, another
    LogError when the disk refuses; the log is then as it was.
    """
    refuse_broken_link(log)
    path = log.resolve()  # so that of a link the file is restored, not the link replaced
    if os.path.lexists(path) and not path.is_file():
        raise LogUnusable(f"{path.name} is no ordinary file, so it is no log: name another.")
    if log.is_symlink() and not is_a_log(path):
        raise LogUnusable(
            f"{log.name} is a link to {os.readlink(log)}, which is no log and holds nothing of one, so it is"
            " left alone: remove the link, and do it again."
        )
    _refuse_stranger(path)
    part = path.with_name(f".{os.urandom(8).hex()}.part")
    as_it_was = None if only_look else _kept(path)
    aside = None
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        with _held(path, only_look=only_look), half_entry_undone(path) as seen:
            there, sound = path.exists(), _is_sound(seen)
            found = find_all(seen) if there else Found((), {}, 0)
            taken_from = _build(part, seen, found, sound, copies)
            now = find_all(part).rows
            changes = tuple(_changes(found, now))
            if not now and not sound and not found.rows:
                raise LogMissing(f"There is nothing to restore {path.name} from: no sound entry was found.")
            if not only_look and now and not (sound and not changes):
                # Only now has it a name that is told: where nothing was replaced there is nothing to keep.
                aside = _named_aside(as_it_was, path, at)
                journal_of(path).unlink(missing_ok=True)  # it would be played back into the new file
                os.replace(part, path)
                sync(path.parent)
    except OSError as error:
        raise from_system(error, path) from error
    finally:
        _forget(part)
        _forget(as_it_was)
    return Restored(
        file=str(log),
        aside=str(aside or ""),
        taken_from=tuple(str(one) for one in taken_from),
        entries=len(now),
        jobs=tuple(sorted({job for job, *_ in now if not is_of_rack(job)})),
        changes=changes,
        unread=found.unread,
        unreadable=there and not sound and not found.rows,
    )


def _refuse_stranger(path: Path) -> None:
    """Raise LogUnusable for another file with the name of a journal, which would be gone for nothing.

    Beside a log that is damaged it is what is left of its journal, and is set aside with it.
    """
    try:
        refuse_what_sqlite_would_take(path)
    except LogUnusable:
        with half_entry_undone(path) as seen:
            if _is_sound(seen) or os.path.lexists(f"{path}-wal"):
                raise


def set_aside(log: Path) -> list[Path]:
    """The files that were set aside when a log was restored, the newest first."""
    ours = re.compile(rf"{re.escape(log.resolve().name)}-set-aside-.+(?<!-journal)", re.DOTALL)
    with suppress(OSError):
        found = [one for one in log.resolve().parent.iterdir() if ours.fullmatch(one.name)]
        return sorted(found, key=lambda one: one.stat().st_mtime_ns, reverse=True)
    return []


def _kept(path: Path) -> Path | None:
    """A copy of a file and its journal to the byte, made before SQLite plays the one back into the other."""
    if not path.exists():
        return None
    kept = path.with_name(f".{os.urandom(8).hex()}.part")
    try:
        for source, copy in ((path, kept), (journal_of(path), journal_of(kept))):
            if source.exists():
                with source.open("rb") as held, copy.open("xb") as written:
                    copy.chmod(0o600)
                    shutil.copyfileobj(held, written)
                sync(copy)
    except OSError as error:
        _forget(kept)
        raise from_system(error, kept) from error
    return kept


def _named_aside(kept: Path | None, path: Path, at: str) -> Path | None:
    if kept is None:
        return None
    aside = path.with_name(f"{path.name}-set-aside-{at}-{os.urandom(2).hex()}")
    try:
        if journal_of(kept).exists():
            name_it(journal_of(kept), journal_of(aside))
        name_it(kept, aside)
    except OSError:
        _forget(aside)
        raise
    sync(path.parent)
    return aside


def _forget(file: Path | None) -> None:
    for left in (file, journal_of(file)) if file is not None else ():
        with suppress(OSError):
            left.unlink(missing_ok=True)


@contextmanager
def _held(path: Path, *, only_look: bool) -> Iterator[None]:
    """Let nobody else write to the file meanwhile, where it is one that anybody could. Raises LogBusy."""
    if only_look or not path.exists():
        yield
        return
    connection = None
    try:
        connection = connect(path, read_only=False, wait_s=0.5)
        connection.execute("BEGIN IMMEDIATE")
    except sqlite3.Error as error:
        if isinstance(busy := from_sqlite(error, path), LogBusy):
            raise busy from error
    try:
        yield
    finally:
        if connection is not None:
            connection.close()


def _is_sound(path: Path) -> bool:
    try:
        with Log(path, read_only=True) as log:
            return not log.verify()
    except LogError:
        return False


def _build(part: Path, path: Path, found: Found, sound: bool, copies: Sequence[Path]) -> list[Path]:
    """Make the new log; the copies that something was taken from. Raises LogError."""
    by_size = sorted(copies, key=_size, reverse=True)
    base = path if sound else next(filter(_is_sound, by_size), None)
    if base is not None:
        with Log(base, read_only=True, whole=False) as whole:
            whole.save_copy(part)
    taken_from = [base] if base is not None and base != path else []
    with Log(part) as built:
        others = [copy for copy in copies if copy == base or not _is_in(built, copy)]
        held = {path: found.rows} | {copy: find_all(copy).rows for copy in others}
        pool = [row for rows in held.values() for row in rows]
        # Where another file has the entry that is damaged in this one, those after it follow again.
        added = {
            entry.digest
            for other, rows in held.items()
            if other != base
            for job, chain in chains_of(rows, pool).items()
            for entry in _add(built, job, chain)
        }
        for other in (path, *taken_from, *others):
            its_own = {row[6] for row in held.get(other, ())}
            if other in others and other not in taken_from and added & its_own:
                taken_from.append(other)
            added -= its_own
        if faults := built.verify():
            raise LogError(f"The restored log would not be sound, so nothing was changed: {faults[0]}")
    return taken_from


def _size(copy: Path) -> int:
    """How many entries a copy says that it has."""
    try:
        return sum(end.number for end in newest_of_all(copy))
    except LogError:
        return 0


def _is_in(built: Log, other: Path) -> bool:
    try:
        return built.holds(newest_of_all(other))
    except LogError:
        return False


def _add(built: Log, job: str, chain: Sequence[Entry]) -> Sequence[Entry]:
    """Add what of a job is not there yet, under another name where that is of another; tell what it was."""
    if built.holds([Newest(job, chain[-1].number, chain[-1].digest)]):
        return ()
    items, name = _items(chain), job
    for number in count(2):
        try:
            there = _items(built.entries(name))
        except NoSuchJob:
            built.begin_with(name, items)
            return chain
        if there == items[: len(there)] and len(items) > len(there):
            built.append_items(name, len(there), items[len(there) :])
            return chain[len(there) :]
        if items == there[: len(items)]:
            return ()
        name = f"{job[: LONGEST_JOB - 4]}-{number}"
    raise AssertionError("there is always another number")


def _items(chain: Sequence[Entry]) -> list[tuple[str, Body]]:
    return [(entry.at, entry.body) for entry in chain]


def _changes(found: Found, now: Sequence[Row]) -> Iterator[ChangedJob]:
    were, after = chains_of(found.rows), chains_of(now)
    kept = {row[6] for row in now}
    for job in sorted({*after, *found.ends}):
        chain = after.get(job, ())
        same = sum(
            1 for _ in takewhile(lambda pair: pair[0] == pair[1], zip(were.get(job, ()), chain, strict=False))
        )
        won, lost = len(chain) - same, max(0, found.ends.get(job, 0) - len(chain))
        if won or lost:
            alone = sorted(row[1:] for row in found.rows if row[0] == job and row[6] not in kept)
            cut_off = tuple(CutOff(*row[:4]) for row in alone[-lost:]) if lost else ()
            yield ChangedJob(job, len(chain), won, lost, cut_off)
