"""Tempering: hardened steel is warmed to give up some hardness for toughness."""

from __future__ import annotations

from types import MappingProxyType

from coach.operations.does import Does
from coach.operations.harden import Harden
from coach.operations.idle import Cold
from coach.quantities import as_words


class Temper(Cold):
    """Scales nothing worth counting."""

    DOES = frozenset({Does.TEMPERS})
    SUMMARY = "Warm it slowly until the colour wanted reaches the edge, then stop it."
    ALSO_CALLED = ("let down", "draw the temper")
    UNDONE_BY_FIRE = True
    EXTRAS = Harden.EXTRAS
    AFTER_OUT = Harden.AFTER_OUT
    AFTER_UNDER = MappingProxyType(
        {"temperature": as_words("It is left harder than is wanted: temper it hotter.")}
    )
    GROWS = {"soak": True}
    HAZARDS = ("black",)
