"""Hardening: the steel is quenched from above its critical heat."""

from __future__ import annotations

from coach.operations.does import Does
from coach.operations.idle import Treatment
from coach.quantities import Kind


class Harden(Treatment):
    """Glass-hard and brittle until it is tempered, so the job may not rest in between."""

    DOES = frozenset({Does.QUENCHES})
    SUMMARY = "Bring the steel past where a magnet lets go to its own heat, even all through, and quench."
    ACCOUNT = "no rest before the temper"
    EXTRAS = {**Treatment.EXTRAS, "hardness": Kind.HARDNESS, "warp": Kind.GAP}
    UNSAFE_UNTIL = Does.TEMPERS
    UNSAFE_WHY = "quenched steel that is left untempered cracks by itself, often overnight"
    AGAIN_AFTER = Does.NORMALISES
    AGAIN_CAUTION = (
        "Every quench is one more chance to crack: normalise before it, and look for a crack after it."
    )
