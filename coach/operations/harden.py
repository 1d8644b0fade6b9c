"""Hardening: the steel is quenched from above its critical heat."""

from __future__ import annotations

from collections.abc import Mapping
from typing import ClassVar

from coach.metals.quenches import BRITTLE
from coach.operations.does import Does, HeatKind
from coach.operations.idle import Idle
from coach.quantities import Kind


class Harden(Idle):
    """Glass-hard and brittle until it is tempered, so the job may not rest in between."""

    NAME: ClassVar[str] = "harden"
    DOES: ClassVar[frozenset[Does]] = frozenset({Does.QUENCHES})
    SUMMARY: ClassVar[str] = "Bring the steel just past where a magnet lets go, even all through, and quench."
    ACCOUNT: ClassVar[str] = "no rest before the temper"
    HEAT_KIND: ClassVar[HeatKind] = HeatKind.TREATMENT
    UNDONE_BY_FIRE: ClassVar[bool] = True
    EXTRAS: ClassVar[Mapping[str, Kind]] = {
        "temperature": Kind.TEMPERATURE,
        "soak": Kind.TIME,
        "hardness": Kind.HARDNESS,
        "warp": Kind.GAP,
    }
    UNSAFE_UNTIL: ClassVar[Does | None] = Does.TEMPERS
    UNSAFE_WHY: ClassVar[str] = "quenched steel that is left untempered cracks by itself, often overnight"
    CAUTION: ClassVar[str] = BRITTLE
    AGAIN_AFTER: ClassVar[Does | None] = Does.NORMALISES
    AGAIN_CAUTION: ClassVar[str] = (
        "Every quench is one more chance to crack: normalise before it, and look for a crack after it."
    )
