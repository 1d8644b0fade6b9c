"""What follows from a recipe's file, told again without reckoning while the file is what it was.

It is kept in the cache folder under the digest of the file and of the smith's own grades.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from hashlib import sha256
from pathlib import Path
from typing import TypeVar

from coach.cli.kept_answers import how_told, keep, recalled
from coach.cli.reply import Asked, Reply
from coach.files import contents
from coach.metals import own_folders
from coach.places import cache_folder
from coach.remembered import Memory

T = TypeVar("T")

#: A file larger than this is no recipe and no grade: what is wrong with it is told anew (our choice).
_LARGEST_BYTES = 256_000


def told_again(
    asked: Asked, what: str, path: Path, tell: Callable[[], Reply[T]], besides: str = ""
) -> Reply[T]:
    """The answer of a command about a recipe's file: as it was told for what it holds, or told anew and kept.

    `what` names the command with all that was asked besides the units and JSON; it is told anew where what
    it goes by `besides` is another.
    """
    if (key := _key(path)) is None:
        return tell()
    key = (*key, besides)
    memory, name = Memory(cache_folder()), f"{what} {path} {how_told(asked)}"
    if (kept := recalled(memory, name, key)) is not None:
        return kept
    answer = tell()
    if (*(_key(path) or ()), besides) == key:  # else it was written meanwhile: which was read is not known
        keep(memory, asked, name, key, answer)
    return answer


def _key(path: Path) -> tuple[str, ...] | None:
    """What the file and the smith's own grades hold now; None where one of them cannot simply be read."""
    try:
        return tuple(f"{one.absolute()} {_digest(one)}" for one in (path, *_grades()))
    except (OSError, ValueError):
        return None


def _grades() -> Iterator[Path]:
    for folder in own_folders():
        if folder.exists():
            yield from sorted(folder.iterdir())


def _digest(path: Path) -> str:
    held = contents(path, _LARGEST_BYTES + 1)
    if len(held) > _LARGEST_BYTES:
        raise ValueError(path.name)
    return sha256(held).hexdigest()
