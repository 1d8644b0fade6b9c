"""A fault of the program itself: written to a file with versions and traceback, told in one line."""

from __future__ import annotations

import platform
import sys
import tempfile
import traceback
from collections.abc import Sequence
from datetime import UTC, datetime
from importlib import metadata
from pathlib import Path

from coach import __version__
from coach.cli.codes import BUG
from coach.places import log_folder
from coach.telling.harmless import harmless_lines
from coach.written import put

_LIBRARIES = ("textual", "rich", "pint", "pyyaml", "pydantic", "platformdirs")


def told(error: Exception, words: Sequence[str]) -> tuple[int, str]:
    """Write the fault down; return the exit code and the one line that says where."""
    path = _written(_report(error, words))
    where = (
        f"what happened is in {path}" if path else f"it could not be written down ({type(error).__name__})"
    )
    return BUG, f"The coach failed; everything entered before this is kept, and {where}."


def _report(error: Exception, words: Sequence[str]) -> str:
    versions = [f"coach {__version__}", f"Python {sys.version.split()[0]}", platform.platform()]
    for name in _LIBRARIES:
        try:
            versions.append(f"{name} {metadata.version(name)}")
        except metadata.PackageNotFoundError:
            versions.append(f"{name} not found")
    happened = "".join(traceback.format_exception(error))
    return f"coach {' '.join(map(repr, words))}\n{'; '.join(versions)}\n\n{happened}"


def _written(report: str) -> Path | None:
    """The file the report went to: in the log folder, or among temporary files when that is closed to us."""
    name = f"fault-{datetime.now(UTC):%Y%m%dT%H%M%S%fZ}.txt"
    for folder in (log_folder, lambda: Path(tempfile.gettempdir())):
        try:
            path = folder() / name
            path.parent.mkdir(parents=True, exist_ok=True)
            put(path, harmless_lines(report).encode("utf-8", "backslashreplace"))
        except OSError:
            continue
        return path
    return None
