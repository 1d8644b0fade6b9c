"""The text of a recipe file, read without asking what it says."""

from __future__ import annotations

from codecs import BOM_UTF8
from pathlib import Path
from typing import Final

from coach.files import contents
from coach.recipe.faults import RecipeFaults, refused

LARGEST_BYTES: Final = 256_000


def file_text(path: Path) -> str:
    """The text of a recipe file, with or without a byte-order mark; raises RecipeFaults."""
    source = str(path)
    try:
        written = contents(path, LARGEST_BYTES + 1)
    except OSError as error:
        message = _CANNOT.get(type(error), f"the file cannot be read: {error.strerror}")
        raise refused(source, message) from None
    except ValueError:
        raise refused(source, "a file cannot have this name") from None
    if len(written) > LARGEST_BYTES:
        raise too_large(source)
    plain = written.removeprefix(BOM_UTF8)
    try:
        return plain.decode("utf-8")
    except UnicodeDecodeError as error:
        before = plain[: error.start].decode("utf-8")
        offset = error.start + len(written) - len(plain)
        message = (
            f"this is not UTF-8 text: byte {offset} (0x{plain[error.start]:02X}) cannot be read; "
            f"save the file as UTF-8"
        )
        column = len(before) - before.rfind("\n")
        raise refused(source, message, before.count("\n") + 1, column) from None


_CANNOT = {
    FileNotFoundError: "there is no such file",
    IsADirectoryError: "this is a folder, not a recipe file",
    PermissionError: "the file may not be read: look at its permissions",
}


def too_large(source: str) -> RecipeFaults:
    """The fault of a file that is larger than any recipe."""
    return refused(source, f"the file is larger than {LARGEST_BYTES // 1000} kB: that is no recipe")
