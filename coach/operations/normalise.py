"""Normalising: the grain is refined by heating past critical and cooling in still air."""

from __future__ import annotations

from coach.operations.does import Does
from coach.operations.idle import Treatment


class Normalise(Treatment):
    """Several descending heats; each scales a little."""

    DOES = frozenset({Does.NORMALISES})
    SUMMARY = "Heat evenly past critical and let it cool in still air, out of any draught."
    HEATS = 3
    HAZARDS = ("black",)
