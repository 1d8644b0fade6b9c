"""Annealing: the metal is softened by cooling as slowly as can be."""

from __future__ import annotations

from coach.operations.idle import Treatment


class Anneal(Treatment):
    """In the banked fire, ash or lime."""

    SUMMARY = "Heat evenly past critical and bury it to cool slowly."
    ALSO_CALLED = ("soften",)
    HAZARDS = ("black",)
    COOLS_BURIED = True
