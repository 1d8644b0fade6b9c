"""Filing: small amounts are taken off cold to bring a size home."""

from __future__ import annotations

from coach.operations.wear import Wear


class File(Wear):
    """Grinding by hand."""

    SUMMARY = "File to size, clean and square."
    ALSO_CALLED = ("polish", "dress", "chamfer", "deburr")
    ACCOUNT = "as grind, `skin` too"
    HAZARDS = ("filings",)
