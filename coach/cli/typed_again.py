"""A file's path as it is typed in the next command: whole, and in quotes where the shell would part it."""

from __future__ import annotations

import re
from pathlib import Path

#: Nothing in it means anything to a shell.
_PLAIN = re.compile(r"[\w@%+=:,./~-]+")


def typed(path: Path) -> str:
    """The path, in single quotes where it holds blanks or other signs."""
    text = f"./{path}" if str(path).startswith("-") else str(path)  # and no option of the command
    if _PLAIN.fullmatch(text):
        return text
    return "'" + text.replace("'", "'\"'\"'") + "'"
