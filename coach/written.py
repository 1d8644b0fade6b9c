"""Files written whole or not at all, over nothing unless that is told, and never through a link."""

from __future__ import annotations

import errno
import os
import re
from collections.abc import Iterator
from contextlib import contextmanager, nullcontext, suppress
from pathlib import Path

_OWN = 0o600
_PART = re.compile(r"\.[0-9a-f]{16}\.part(-journal)?")
_A_DAY_S = 86_400.0
_TRIED = 1 << 16  # bytes: more than an entry takes


def put(path: Path, content: bytes, *, over: bool = False, synced: bool = True, mode: int = 0o600) -> None:
    """Write a file that appears under its name once it is whole.

    Args:
        path: where; its folder is there.
        content: all of it.
        over: whether it may take the place of a file; of a link that is the link, not what it points to.
        synced: whether it must be on the disk before this returns.
        mode: who may read and write it.

    Raises:
        FileExistsError: something is there already, be it a link to nothing, and `over` was not said.
        OSError: the disk or the folder refuses; what was there still is, and nothing is left beside it.
        ValueError: no file can have this name.
    """
    with made_beside(path) as part:
        part.write_bytes(content)
        if mode != _OWN:
            with suppress(OSError):  # a disk that knows no rights
                part.chmod(mode)
        if synced:
            sync(part)
        if over:
            os.replace(part, path)
        else:
            name_it(part, path)
    if synced:
        sync(path.parent)


@contextmanager
def made_beside(path: Path) -> Iterator[Path]:
    """An empty file beside a final name, to be filled and moved there, so that no half-made one is found.

    Its name cannot be guessed, and it is made here and now or not at all: nothing that lies there is
    followed. It is for its owner's eyes alone. Raises OSError, which names the final name.
    """
    part = path.with_name(f".{os.urandom(8).hex()}.part")
    try:
        os.close(os.open(part, os.O_CREAT | os.O_EXCL | os.O_RDWR, _OWN))
        yield part
    except OSError as error:
        if error.filename == os.fspath(part):
            error.filename = os.fspath(path)
        raise
    finally:
        part.unlink(missing_ok=True)


def why_not_written(path: Path) -> int:
    """The number of the error with which the system refuses that a file grows; 0 where it does not."""
    if largest_file() is not None:
        return errno.EFBIG
    try:
        with made_beside(path) as part:
            part.write_bytes(bytes(_TRIED))
            sync(part)
    except OSError as error:
        return error.errno or 0
    return 0


def largest_file() -> int | None:
    """How many bytes a file may have that this program writes; None where nothing limits that."""
    try:
        import resource
    except ImportError:  # Windows has no such limits
        return None
    most = resource.getrlimit(resource.RLIMIT_FSIZE)[0]
    return None if most == resource.RLIM_INFINITY else most


def sweep(folder: Path, fresh: Path) -> None:
    """Remove the files that `made_beside` left in a folder when it was killed, a day before a fresh one.

    The fresh file's own moment is gone by, not the clock: that may be wrong, and one is never removed which
    is being filled.
    """
    with suppress(OSError):
        before_s = fresh.stat().st_mtime - _A_DAY_S
        for found in list(os.scandir(folder)):
            ours = _PART.fullmatch(found.name) and found.is_file(follow_symlinks=False)
            if ours and found.stat(follow_symlinks=False).st_mtime < before_s:
                os.unlink(found.path)


def name_it(part: Path, path: Path) -> None:
    """Give a file its final name. Raises FileExistsError when something has it, or another OSError."""
    try:
        os.link(part, path)
    except FileExistsError:
        raise
    except OSError:
        # A disk that knows no hard links: the name is taken first, which only one can do.
        os.close(os.open(path, os.O_CREAT | os.O_EXCL | os.O_WRONLY, _OWN))
        os.replace(part, path)


def sync(path: Path) -> None:
    """Have the disk take a file, or the names in a folder, for good. Raises OSError for a file."""
    of_folder = path.is_dir()
    # Windows opens no folder and some network disks refuse this; the file is taken by then.
    with suppress(OSError) if of_folder else nullcontext():
        handle = os.open(path, os.O_RDONLY if of_folder else os.O_RDWR)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)
