"""Tempering: hardened steel is warmed to give up some hardness for toughness."""

from __future__ import annotations

from coach.operations.does import Does
from coach.operations.harden import Harden
from coach.operations.idle import Cold


class Temper(Cold):
    """Scales nothing worth counting."""

    DOES = frozenset({Does.TEMPERS})
    SUMMARY = "Warm it slowly until the colour wanted reaches the edge, then stop it."
    UNDONE_BY_FIRE = True
    EXTRAS = Harden.EXTRAS
    AFTER_OUT = Harden.AFTER_OUT
    GROWS = {"soak": True}
    HAZARDS = ("black",)
