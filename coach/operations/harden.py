"""Hardening: the steel is quenched from above its critical heat."""

from __future__ import annotations

from types import MappingProxyType
from typing import Final

from coach.operations.does import Does
from coach.operations.idle import Treatment
from coach.quantities import Kind, celsius, say

#: Quenched steel gives until it has cooled to this, in °C, then is glass-hard (common practice, no source).
_GIVES_ABOVE_C: Final = 200.0
_STRAIGHTEN: Final = say(
    "Straighten it while it is above {} from the quench, or in the temper or hot from it; never cold before "
    "the temper: it snaps.",
    celsius(_GIVES_ABOVE_C),
)


class Harden(Treatment):
    """Glass-hard and brittle until it is tempered, so the job may not rest in between."""

    DOES = frozenset({Does.QUENCHES})
    SUMMARY = "Bring the steel past where a magnet lets go to its own heat, even all through, and quench."
    ACCOUNT = "no rest before the temper"
    EXTRAS = {**Treatment.EXTRAS, "hardness": Kind.HARDNESS, "warp": Kind.GAP}
    AFTER_OUT = MappingProxyType({"warp": _STRAIGHTEN})
    UNSAFE_UNTIL = Does.TEMPERS
    UNSAFE_WHY = "quenched steel that is left untempered cracks by itself, often overnight"
    AGAIN_AFTER = Does.NORMALISES
    AGAIN_CAUTION = "Every quench is one more chance to crack: look for a crack after it."
