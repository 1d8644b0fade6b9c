"""Filing: small amounts are taken off cold to bring a size home."""

from __future__ import annotations

from typing import ClassVar

from coach.operations.wear import Wear


class File(Wear):
    """Grinding by hand."""

    NAME: ClassVar[str] = "file"
    SUMMARY: ClassVar[str] = "File to size, clean and square."
