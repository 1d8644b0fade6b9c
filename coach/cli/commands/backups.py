"""`coach backups`: the copies of the log, and the second folder that they are kept in."""

from __future__ import annotations

import os
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from coach.cli.opening import (
    look_for_log,
    open_shop,
    refuse_where_the_log_is,
    second_folder,
    shop_path,
)
from coach.cli.page import paragraph, table
from coach.cli.reply import Asked, Refused, Reply, reply
from coach.files import expand, naming_a_path
from coach.quantities.takes import Take, flag, plain
from coach.quantities.words import counted
from coach.settings import set_now
from coach.telling.clock import moment
from coach.telling.words import write
from coach.telling.writing import Shown
from coach.written import made_beside, put

if TYPE_CHECKING:
    from coach.log.copies import Copy

SUMMARY = (
    "List the copies of the log: where they are, of which day, how much is in them, whether they are sound."
)
TAKES = (
    flag("--now", "make a copy now, before they are listed"),
    Take(
        "--second",
        "keep copies in this folder as well from now on, such as one on a stick",
        "FOLDER",
        plain(naming_a_path),
    ),
    flag("--no-second", "keep no copies in a second folder any more; those that are there stay"),
)


class BackupCopy(NamedTuple):
    """A copy of the log."""

    file: str  # where it is
    day: str  # the day it was made
    jobs: int  # how many jobs are in it
    entries: int  # how many sound entries
    last_at: str  # the moment of the newest of them
    sound: bool  # whether all of it is as it was written
    unread: str  # why it cannot be read, in the system's words; empty when it can


class Backups(NamedTuple):
    """The copies of the log."""

    folders: tuple[str, ...]  # where they are kept
    unreadable: tuple[str, ...]  # those of these folders that cannot be read
    copies: tuple[BackupCopy, ...]  # the newest first, by folder
    trouble: str  # why a copy asked for could not be made; empty when it could


def run(asked: Asked) -> Reply[Backups]:
    """List them; bad news when one is damaged or could not be made."""
    from coach.log.copies import copies_in, folders_of, not_readable

    path = shop_path(asked)
    if asked.second is not None and asked.no_second:
        raise Refused("--second sets a second folder and --no-second sets none: leave one of them out.")
    if asked.second is not None or asked.no_second:
        if set_now().get("second_folder") is not None:
            raise Refused(
                "The second folder is named in the settings: `coach config set second_folder FOLDER` names"
                " another, and `coach config unset second_folder` none."
            )
        _set_second(asked.second, path)
    trouble = _made_now(asked, path) if asked.now else ""
    folders = folders_of(path, second_folder())
    unseen = {folder: why for folder in folders if (why := not_readable(folder))}
    found = [_looked_at(copy) for folder in folders for copy in copies_in(folder, path.name)]
    lines = paragraph(trouble) if trouble else []
    for folder in folders:
        there = [one for one in found if Path(one.file).parent == folder]
        lines.append(f"In {folder}:")
        if folder in unseen:
            lines += paragraph(
                f"it cannot be read ({unseen[folder]}), so its copies are not known.", "  ", "  "
            )
        elif not there:
            lines.append("  no copy")
        for one, row in zip(there, table(map(_row, there)), strict=True):
            lines += [row, f"    {Path(one.file).name}"]  # whole, to be copied after `coach restore`
    bad = bool(trouble or unseen) or not all(one.sound for one in found)
    told = Backups(tuple(map(str, folders)), tuple(map(str, unseen)), tuple(found), trouble)
    return reply(lines, told, bad_news=bad)


def _set_second(named: str | None, log: Path) -> None:
    """Keep where the second folder is, or that there is none; raises Refused."""
    from coach.places import second_folder_file

    folder = expand(named).absolute() if named is not None else None
    if folder is not None and not os.path.isdir(folder):
        raise Refused(f"{folder} is not a folder that is there: make it or plug it in, then name it again.")
    if folder is not None:
        refuse_where_the_log_is(folder, log)
    kept = second_folder_file()
    try:
        if folder is not None:
            with made_beside(folder / "copy"):  # whether a file can be made in it at all
                pass
    except OSError as error:
        raise Refused(f"No copy can be kept in {folder} ({error.strerror}): name another folder.") from error
    try:
        kept.parent.mkdir(parents=True, exist_ok=True)
        put(kept, os.fsencode(f"{folder or ''}\n"), over=True)
    except OSError as error:
        raise Refused(
            f"{kept} cannot be written ({error.strerror}): the second folder stays as it was."
        ) from error


def _made_now(asked: Asked, path: Path) -> str:
    """Make copies now; why that could not be done, "" when it could."""
    look_for_log(path)
    if not os.path.lexists(path):
        raise Refused(f"There is no {path} to copy: `coach begin RECIPE` begins a log.")
    with open_shop(asked, path) as shop:
        if shop.log.read_only:
            raise Refused(f"{path} or its folder cannot be written, so no copy is made beside it.")
        return write(shop.keep_copies(), Shown(asked.units or "mm"))


def _looked_at(copy: Copy) -> BackupCopy:
    from coach.log.copies import not_readable
    from coach.log.looking_through import look_through

    if why := not_readable(copy.path):
        return BackupCopy(str(copy.path), str(copy.day), 0, 0, "", False, why)
    seen = look_through(copy.path)
    return BackupCopy(str(copy.path), str(copy.day), seen.jobs, seen.entries, seen.last_at, seen.sound, "")


def _row(copy: BackupCopy) -> tuple[str, ...]:
    if copy.unread:
        return copy.day, "cannot be read", copy.unread, "NOT KNOWN"
    held = f"{counted(copy.jobs, 'job')}, {copy.entries} entr{'y' if copy.entries == 1 else 'ies'}"
    until = f"to {moment(copy.last_at)}" if copy.last_at else ""
    return copy.day, held, until, "sound" if copy.sound else "DAMAGED"
