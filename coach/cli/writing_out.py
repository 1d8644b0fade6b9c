"""What a command writes to a file that was named: never over a log, and over another file only when told."""

from __future__ import annotations

import os
from pathlib import Path

from coach.cli.reply import Refused
from coach.files import expand, refused_by_windows, said_by_the_system, wants_room
from coach.quantities.takes import flag, plain
from coach.written import put

FORCE = flag("--force", "write over the file when it is there already; never over a log")


def _not_of_blanks(named: str) -> str:
    if not named.strip():
        raise Refused("A file cannot have a name of blanks: name another.")
    return named


A_FILE = plain(_not_of_blanks)
"""Reads the name of a file to write."""


def write_out(named: str, text: str | bytes, *, force: bool, log: Path, mode: int = 0o600) -> Path:
    """Write a text, or what is ready in bytes, to the file that was named, and return its path.

    `log` is the log in use, which is kept although damage may have taken its mark; `mode` is who may read the
    file. Raises Refused, and then all is as it was.
    """
    from coach.log.file import is_part_of_a_log

    path = expand(_not_of_blanks(named))
    if why := refused_by_windows(str(path)):
        raise Refused(f"{path} {why}: name another file.")
    try:
        if os.path.isdir(path):
            raise Refused(f"{path} is a folder: name a file in it.")
        if is_part_of_a_log(path, log):
            raise Refused(f"{path} is a log or belongs to one, and is never written over: name another file.")
        if os.path.exists(path) and not os.path.isfile(path):
            raise Refused(f"{path} is no ordinary file: name another.")
        put(path, text.encode("utf-8") if isinstance(text, str) else text, over=force, mode=mode)
    except FileExistsError as error:
        raise Refused(
            f"{path} is there already: name another file, or say --force to write over it."
        ) from error
    except Refused:
        raise
    except (OSError, ValueError) as error:
        if isinstance(error, OSError) and wants_room(error):
            raise Refused(f"{path} is not written. {said_by_the_system(error)}") from error
        why = getattr(error, "strerror", None) or "a file cannot have this name"
        raise Refused(f"{path} cannot be written ({why}): name another file.") from error
    return path
