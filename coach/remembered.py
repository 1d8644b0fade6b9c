"""What was told before, kept as text in a folder that may be emptied: shown sooner, never believed.

Nothing of a job is stored here. A text is given out again only under the key it was kept under, which names
all that it follows from: the digest of a job's last entry, the program's own files, the units. Whatever
cannot be read, or was altered by a byte, counts as forgotten.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator, Sequence
from contextlib import suppress
from hashlib import sha256
from pathlib import Path

from coach import __version__
from coach.files import text_of
from coach.written import put, sweep

_KEPT = 400
"""How many texts are kept; the oldest go."""

_LARGEST_BYTES = 64_000_000


_also: list[str] = []


def depends_on(text: str) -> None:
    """Remember from now on only what was told while this text was the same, such as the smith's settings."""
    _also[:] = [text] if text else []


class Memory:
    """Texts by name in one folder, which is made with the first of them."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder
        self._program = program_fingerprint()

    def recall(self, name: str, key: Sequence[object]) -> str | None:
        """The text kept under this name, if it was kept under this key by this very program."""
        try:
            seal, _, text = text_of(self._path(name), _LARGEST_BYTES).partition("\n")
        except (OSError, ValueError):
            return None
        return text if seal == self._seal(name, key, text) else None

    def keep(self, name: str, key: Sequence[object], text: str) -> None:
        """Keep a text; where the folder cannot be written it is forgotten."""
        path = self._path(name)
        with suppress(OSError, ValueError):
            self._folder.mkdir(parents=True, exist_ok=True)
            put(path, f"{self._seal(name, key, text)}\n{text}".encode(), over=True, synced=False)
            sweep(self._folder, path)
            self._drop_the_oldest()

    def _path(self, name: str) -> Path:
        return self._folder / f"{sha256(name.encode('utf-8', 'surrogatepass')).hexdigest()[:32]}.txt"

    def _seal(self, name: str, key: Sequence[object], text: str) -> str:
        told = "\n".join(repr(part) for part in (self._program, *_also, name, *key))
        return sha256(f"{told}\n{text}".encode("utf-8", "surrogatepass")).hexdigest()

    def _drop_the_oldest(self) -> None:
        kept = [entry for entry in os.scandir(self._folder) if entry.name.endswith(".txt")]
        if len(kept) > _KEPT:
            for entry in sorted(kept, key=lambda one: one.stat().st_mtime)[: len(kept) - _KEPT // 2]:
                with suppress(OSError):
                    os.unlink(entry.path)


def program_fingerprint(package: Path = Path(__file__).parent) -> str:
    """What tells this program from any other: its version, Python's, and its files' sizes and moments.

    The versions alone lie in a checkout.
    """
    files = "\n".join(sorted(_files_of(str(package))))
    return f"{__version__} {sys.version} {sha256(files.encode('utf-8', 'surrogatepass')).hexdigest()}"


def _files_of(folder: str) -> Iterator[str]:
    with os.scandir(folder) as found:
        for entry in found:
            if entry.is_dir(follow_symlinks=False):
                if entry.name != "__pycache__":
                    yield from _files_of(entry.path)
            elif not entry.name.endswith((".pyc", ".pyo")):
                told = entry.stat()
                yield f"{entry.path} {told.st_size} {told.st_mtime_ns}"
