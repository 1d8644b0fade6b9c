"""Files written whole or not at all, over nothing unless that is told, and never through a link."""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import contextmanager, nullcontext, suppress
from pathlib import Path


def put(path: Path, content: bytes, *, over: bool = False, synced: bool = True) -> None:
    """Write a file that appears under its name once it is whole.

    Args:
        path: where; its folder is there.
        content: all of it.
        over: whether it may take the place of a file; of a link that is the link, not what it points to.
        synced: whether it must be on the disk before this returns.

    Raises:
        FileExistsError: something is there already, be it a link to nothing, and `over` was not said.
        OSError: the disk or the folder refuses; what was there still is, and nothing is left beside it.
        ValueError: no file can have this name.
    """
    with made_beside(path) as part:
        part.write_bytes(content)
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
    followed. It is for its owner's eyes alone. Raises OSError.
    """
    part = path.with_name(f".{os.urandom(8).hex()}.part")
    os.close(os.open(part, os.O_CREAT | os.O_EXCL | os.O_RDWR, 0o600))
    try:
        yield part
    finally:
        part.unlink(missing_ok=True)


def name_it(part: Path, path: Path) -> None:
    """Give a file its final name. Raises FileExistsError when something has it, or another OSError."""
    try:
        os.link(part, path)
    except FileExistsError:
        raise
    except OSError:
        # A disk that knows no hard links: the name is taken first, which only one can do.
        os.close(os.open(path, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o600))
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
