"""Ordinary files read without waiting: what stands in their place, a pipe or a device, is refused."""

from __future__ import annotations

import errno
import os
import re
import stat
from collections.abc import Mapping
from pathlib import Path, PureWindowsPath
from typing import Final

IS_WINDOWS = os.name == "nt"
"""Whether files are named here as Windows names them."""
#: What Windows takes for a device, whatever ending it has, and what no name of a file there holds: what was
#: written so would be gone (Microsoft, "Naming Files, Paths, and Namespaces", from memory).
_DEVICE: Final = re.compile(
    r"(?:con|prn|aux|nul|conin\$|conout\$|(?:com|lpt)[\d¹²³]) *(?:\..*)?", re.IGNORECASE
)
_IN_NO_NAME: Final = re.compile(r'[<>:"|?*\x00-\x1f]')


def expand(named: str) -> Path:
    """The path that was typed, with the folder of the user whom `~` names; raises OSError where none is.

    So it does for blanks, which would mean the folder in hand.
    """
    if not named.strip():
        raise OSError(errno.EINVAL, "blanks name no file", repr(named))
    path = os.path.expanduser(named)
    if path.startswith("~"):
        raise OSError(errno.ENOENT, "there is no such user; of a file that is called so, say ./~…", named)
    return Path(path)


def refused_by_windows(named: str) -> str:
    r"""Why no file can be called so on Windows, to go on after its name; "" where it can, or elsewhere.

    >>> why_no_file_of_windows("C:\\forge\\con.md"), why_no_file_of_windows(r"C:\forge\hook.md")
    ('has con.md in it, which Windows keeps for a device', '')
    >>> why_no_file_of_windows("hook: first.md")
    'has : in it, which no name of a file has on Windows'
    """
    return why_no_file_of_windows(named) if IS_WINDOWS else ""


def why_no_file_of_windows(named: str) -> str:
    """The same wherever the coach runs."""
    path = PureWindowsPath(named)
    for part in path.parts[bool(path.anchor) :]:
        if _DEVICE.fullmatch(part):
            return f"has {part} in it, which Windows keeps for a device"
        if found := _IN_NO_NAME.search(part):
            return f"has {found[0]} in it, which no name of a file has on Windows"
        if part.endswith((" ", ".")) and part.strip("."):
            return "ends in a blank or a full stop, which Windows leaves out of a name"
    return ""


def naming_a_path(named: str) -> str:
    """What was typed, where it can name a file; raises OSError as `expand` does."""
    expand(named)
    return named


def contents(path: Path, most_bytes: int) -> bytes:
    """What is in an ordinary file, at most so many bytes of it; raises OSError, also for what is none."""
    # A pipe that nobody writes to would be waited for; without waiting it is opened, and then seen to be one.
    handle = os.open(path, os.O_RDONLY | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0))
    with os.fdopen(handle, "rb") as file:
        if not stat.S_ISREG(os.fstat(handle).st_mode):
            raise OSError(errno.EINVAL, "it is no ordinary file", str(path))
        return file.read(most_bytes) or b""  # files of the system that are not ready give None


def text_of(path: Path, most_bytes: int = 256_000) -> str:
    """The text of an ordinary file in UTF-8, of so many bytes at most.

    Raises OSError, also for what is no ordinary file or larger than that, and ValueError.
    """
    held = contents(path, most_bytes + 1)
    if len(held) > most_bytes:
        raise OSError(errno.EINVAL, "it is too large", str(path))
    return held.decode("utf-8")


def refuse_what_is_no_file(path: Path, *, or_folder: bool = False) -> None:
    """Raise OSError where something stands at a path that is no ordinary file, nor may be a folder."""
    try:
        mode = os.stat(path).st_mode
    except OSError:
        return
    if not (stat.S_ISREG(mode) or (or_folder and stat.S_ISDIR(mode))):
        raise OSError(errno.EINVAL, "it is no ordinary file", str(path))


def said_by_the_system(error: OSError) -> str:
    """Why a disk, a folder or a file cannot be used, as a sentence that says what to look at."""
    reason = error.strerror or str(error) or type(error).__name__
    if error.errno in _NO_ROOM:
        return f"{_NO_ROOM[error.errno].format(reason)} and do it again."
    where = os.fsdecode(error.filename) if isinstance(error.filename, str | bytes | os.PathLike) else ""
    if not where:
        return f"The disk or the folder in hand cannot be used ({reason}): look at both and do it again."
    short = where if len(where) <= _LONGEST_PATH else f"{where[:_LONGEST_PATH]}…"
    return f"{short} cannot be used ({reason}): look at its name, its folder and their permissions."


def wants_room(error: OSError) -> bool:
    """Whether it is that nothing more, or nothing so large, can be written here, whatever its name."""
    return error.errno in _NO_ROOM


_NO_ROOM: Mapping[int | None, str] = {
    errno.ENOSPC: "There is no room left on the disk ({}): make room",
    errno.EDQUOT: "Your share of the disk is used up ({}): make room or have more given to you",
    errno.EFBIG: "No file may be as large as that here ({}): allow larger ones, see `ulimit -f`,",
}
_LONGEST_PATH = 300


def is_of_the_program(error: OSError) -> bool:
    """Whether it is a file of the program itself that is missing or cannot be read."""
    named = error.filename
    return isinstance(named, str) and Path(named).is_relative_to(Path(__file__).parent)
