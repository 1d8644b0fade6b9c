"""Which look the smith chose last, kept in a small file."""

from __future__ import annotations

import json
from contextlib import suppress
from pathlib import Path

from coach.screens.theme import FORGE, LOOKS

_KEY = "look"


def kept_look(file: Path | None) -> str:
    """The look that was chosen last; the usual one where none was or the file cannot be read."""
    if file is None:
        return FORGE.name
    try:
        kept = json.loads(file.read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return FORGE.name
    look = kept.get(_KEY) if isinstance(kept, dict) else None
    return look if look in LOOKS else FORGE.name


def keep_look(file: Path | None, look: str) -> None:
    """Keep it for next time; a disk that cannot be written only forgets it."""
    if file is None:
        return
    with suppress(OSError):
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(json.dumps({_KEY: look}) + "\n", encoding="utf-8")
