"""Copies of the log kept beside it, one for each day it was used."""

from __future__ import annotations

import re
from contextlib import suppress
from datetime import date
from os.path import isfile
from pathlib import Path

from coach.log.errors import LogError
from coach.log.file import IN_MEMORY
from coach.log.jobs import Log

_DAY = r"\d{4}-\d\d-\d\d"


def keep_backup(log: Log, folder: Path, day: date, keep: int = 14, *, force: bool = False) -> Path | None:
    """Keep today's copy of the log in `folder`, drop the oldest beyond `keep`, and return the copy's path.

    `day` is today. A copy that is there already is left alone unless `force`. Returns None
    when no copy could be made (no room, no leave to write, log in use): that is for the caller to tell.
    While the log is damaged nothing older is dropped, so that sound copies outlast the damage. Raises
    ValueError when `keep` is below 1.
    """
    if keep < 1:
        raise ValueError("at least one backup must be kept")
    copy = copy_of_day(log.path, folder, day)
    if isfile(copy) and not force:
        return copy
    try:
        sound = not log.verify()
        log.save_copy(copy)
    except LogError:
        return None
    if sound:
        for old in backups_of(_stem(log.path), folder)[keep:]:
            with suppress(OSError):
                old.unlink()
    return copy


def copy_of_day(log: Path, folder: Path, day: date) -> Path:
    """Where the copy made of a log on a day is kept."""
    return folder / f"{_stem(log)}-{day}.db"


def _stem(log: Path) -> str:
    return "shop" if log == IN_MEMORY else log.stem


def backups_of(stem: str, folder: Path) -> list[Path]:
    """Return the copies in `folder` of the log named `stem` (`shop` for `shop.db`), the newest first."""
    ours = re.compile(rf"{re.escape(stem)}-{_DAY}\.db")
    try:
        found = [path for path in folder.iterdir() if ours.fullmatch(path.name)]
    except OSError:
        return []
    return sorted(found, key=lambda path: path.name, reverse=True)
