"""Copies of the log, each under its day and what it holds, of which no sound one ever gives way to less."""

from __future__ import annotations

import json
import os
import re
from collections.abc import Sequence
from contextlib import suppress
from datetime import date
from hashlib import sha256
from pathlib import Path
from typing import NamedTuple

from coach.files import contents
from coach.log.errors import TAKE_BACK, LogDamaged, LogError, LogMissing, from_system
from coach.log.file import IN_MEMORY
from coach.log.jobs import Log
from coach.log.newest import Newest, newest_of_all
from coach.written import sweep, sync

DAYS_KEPT = 14
"""Of so many days a copy is kept; an older one goes once a newer holds everything in it."""

_DAMAGED_KEPT = 5


class Copy(NamedTuple):
    """A copy of a log, as its name tells it."""

    path: Path
    day: date
    """The day it was made."""
    damaged: bool
    """Whether the log was damaged then."""


def backups_beside(log: Path) -> Path:
    """The folder of the copies of a log."""
    return log.parent / "backups"


def backups_apart(log: Path, folder: Path) -> Path:
    """The folder of its copies within a second one, where another log may have the same name."""
    which = sha256(str(log.absolute()).encode("utf-8", "surrogateescape")).hexdigest()[:8]
    return folder / f"{_APART}{which}"


_APART = "between-heats-"


def folders_of(log: Path, second: Path | None) -> list[Path]:
    """The folders that copies of a log are in: that beside it, and that within a second one."""
    return [backups_beside(log), *([backups_apart(log, second)] if second else [])]


def keep_backup(log: Log, folder: Path, day: date, keep: int = DAYS_KEPT, *, force: bool = False) -> Path:
    """Keep today's copy of the log in `folder` and return its path.

    `day` is today. A sound copy of today that is there already is left alone unless `force`. A copy is
    written under a name that tells what is in it, read back and checked, so that it never takes the place
    of another. An older one goes only when this one is sound and holds every entry of it, and when it is
    not the newest of one of the `keep` last days; days that are still to come, by a clock that was wrong,
    are counted apart.

    Raises LogDamaged when the log is damaged, whose copy is then kept beside the sound ones; another LogError
    when no copy could be made (no room, no leave to write, log in use); ValueError when `keep` is below 1.
    """
    if keep < 1:
        raise ValueError("at least one backup must be kept")
    name = "shop" if log.path == IN_MEMORY else log.path.name
    if not force and (there := [copy.path for copy in copies_in(folder, name) if copy[1:] == (day, False)]):
        return there[0]
    fresh = folder / f".{os.urandom(8).hex()}.part"
    try:
        folder.mkdir(parents=True, exist_ok=True, mode=0o700)
        log.save_copy(fresh)
        sound, held = _judged(fresh)
        kept = folder / f"{name}-{day}-{held}{'' if sound else _DAMAGED}.sqlite"
        os.replace(fresh, kept)
        sync(folder)
        for left in (folder, log.path.parent):
            sweep(left, kept)
    except OSError as error:
        raise from_system(error, folder) from error
    finally:
        with suppress(OSError):
            fresh.unlink(missing_ok=True)
    if not sound:
        for old in [copy.path for copy in copies_in(folder, name) if copy.damaged][_DAMAGED_KEPT:]:
            _drop(old)
        raise LogDamaged(
            f"{log.path.name} is damaged, so no sound copy of it could be made, and those made before are all"
            f" kept; {TAKE_BACK}."
        )
    _drop_what_it_holds(kept, [copy for copy in copies_in(folder, name) if not copy.damaged], day, keep)
    return kept


_DAMAGED = "-damaged"


def copies_in(folder: Path, name: str) -> list[Copy]:
    """The copies in `folder` of the log whose file is called `name`, the newest first."""
    ours = re.compile(rf"{re.escape(name)}-(\d{{4}}-\d\d-\d\d)-[0-9a-f]{{12}}({_DAMAGED})?\.sqlite")
    found = []
    with suppress(OSError, ValueError):
        for path in folder.iterdir():
            if (told := ours.fullmatch(path.name)) and os.path.isfile(path):
                with suppress(ValueError):
                    copy = Copy(path, date.fromisoformat(told[1]), told[2] is not None)
                    found.append((copy.day, path.stat().st_mtime_ns, copy))
    return [copy for *_, copy in sorted(found, reverse=True)]


def check_not_lost(log: Path, folders: Sequence[Path], *, is_empty: bool = False) -> None:
    """Raise LogMissing where there is no log, or nothing in it, and there are copies of it.

    So it does where nobody can tell whether there are, for a folder of theirs cannot be read.
    """
    if os.path.lexists(log) and not is_empty:
        return
    gone = f"{log} is empty" if is_empty else f"There is no {log}"
    found = [copy for folder in folders for copy in copies_in(folder, log.name)]
    if found:
        count = "1 copy" if len(found) == 1 else f"{len(found)} copies"
        raise LogMissing(
            f"{gone}, but {count} of it in {found[0].path.parent}: `coach restore` takes it back,"
            " `coach backups` lists what there is; to begin a new log, name another file with --shop."
        )
    for folder in folders:
        if why := not_readable(folder):
            instead = "" if why == _OUT else ", or name another file with --shop"
            raise LogMissing(
                f"{gone}, and whether there are copies of it in {folder} cannot be told ({why}):"
                f" {to_have_it_read(why)}{instead}."
            )


def not_readable(place: Path) -> str:
    """Why a copy or a folder of copies cannot be read, as the system says it; "" where it can or is none.

    Nobody knows what is in one within a second folder that is not there, such as a stick that is out.
    """
    try:
        if os.path.isfile(place):
            contents(place, 1)
        elif os.listdir(place):
            os.stat(f"{place}/.")  # which may be refused though the names are told
    except (FileNotFoundError, NotADirectoryError):
        return _OUT if place.name.startswith(_APART) and not os.path.isdir(place.parent) else ""
    except OSError as error:
        return error.strerror or type(error).__name__
    return ""


_OUT = "the folder that it is in is not there"


def to_have_it_read(why: str) -> str:
    """What to do where a copy or a folder of them cannot be read, for the reason of `not_readable`."""
    return _PLUG_IT_IN if why == _OUT else "allow reading it"


_PLUG_IT_IN = "plug in what it is on, or have no second folder with `coach backups --no-second`"


def _judged(path: Path) -> tuple[bool, str]:
    """Whether a file is a sound log, and a name for what it holds: of a damaged one, every byte of it.

    How far the jobs of a damaged one go may be the same at the next damage, and less be sound in it.
    """
    try:
        with Log(path, read_only=True, whole=False) as copy:  # it is looked through whole below
            sound = not copy.verify()
        ends = sorted(newest_of_all(path))
    except LogError:
        sound = False
    if not sound:
        return False, sha256(path.read_bytes()).hexdigest()[:12]
    return True, sha256(json.dumps(ends, ensure_ascii=True).encode()).hexdigest()[:12]


def _drop_what_it_holds(kept: Path, copies: Sequence[Copy], today: date, keep: int) -> None:
    """Drop the copies whose day has no claim and that hold nothing which `kept`, a sound one, has not."""
    by_clock = sorted({copy.day for copy in copies if copy.day <= today}, reverse=True)[:keep]
    ahead = sorted({copy.day for copy in copies if copy.day > today})[:keep]
    spared = {day: next(copy.path for copy in copies if copy.day == day) for day in (*by_clock, *ahead)}
    spared[today] = kept
    with suppress(LogError), Log(kept, read_only=True, whole=False) as newest:
        for copy in copies:
            if copy.path not in (kept, spared.get(copy.day)) and newest.holds(_ends_of(copy.path)):
                _drop(copy.path)


def _ends_of(copy: Path) -> list[Newest]:
    """How far the jobs in a copy go; of one that cannot be read, something that no log holds."""
    try:
        return newest_of_all(copy)
    except LogError:
        return [Newest("", 0, "")]


def _drop(copy: Path) -> None:
    with suppress(OSError):
        copy.unlink()
