"""Grinding: metal is taken off cold to bring a size home."""

from __future__ import annotations

from coach.operations.wear import Wear


class Grind(Wear):
    """The sizes asked for are reached by taking metal away, not by moving it."""

    SUMMARY = "Grind to size; keep the steel cool enough to hold."
    ALSO_CALLED = ("polish", "sand")
    ACCOUNT = (
        "what the sizes say is gone; before it the zone has the stated free size and a `skin` of "
        "0.5 mm unless said"
    )
    HAZARDS = ("wheel",)
