"""Normalising: the grain is refined by heating past critical and cooling in still air."""

from __future__ import annotations

from types import MappingProxyType

from coach.operations.does import Does
from coach.operations.idle import Treatment
from coach.quantities.words import as_words


class Normalise(Treatment):
    """Several descending heats; each scales a little."""

    DOES = frozenset({Does.NORMALISES})
    SUMMARY = "Heat evenly past critical and let it cool in still air, out of any draught."
    ALSO_CALLED = ("normalize", "cycle")
    HEATS = 3
    HAZARDS = ("black",)
    #: Steel coarsened by a heat is refined by one to just over its upper critical: an encyclopaedia, title
    #: and year not seen (confirmed second-hand).
    AFTER_OUT = MappingProxyType(
        {
            "temperature": as_words(
                "Give it one more heat, even and at its own temperature, and still air until it is black: "
                "that makes the grain fine."
            )
        }
    )
