"""A recipe written among the smith's own, under a name that is free."""

from __future__ import annotations

from pathlib import Path


def write_own(folder: Path, stem: str, text: str) -> Path:
    """Write a recipe to a folder and return its file: `stem.yaml`, or `stem-2.yaml` where that cannot be.

    The folder is made where it is not there. Raises OSError.
    """
    from coach.files import refused_by_windows
    from coach.written import put

    folder.mkdir(parents=True, exist_ok=True)
    number = 2 if refused_by_windows(f"{stem}.yaml") else 1
    while True:
        path = folder / (f"{stem}.yaml" if number == 1 else f"{stem}-{number}.yaml")
        try:
            put(path, text.encode("utf-8"), mode=0o644)
        except FileExistsError:
            number += 1
        else:
            return path
