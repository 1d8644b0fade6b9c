"""Hardening: the steel is quenched from above its critical heat."""

from __future__ import annotations

from collections.abc import Mapping
from typing import ClassVar

from coach.metals.quenches import BRITTLE
from coach.operations.idle import Idle


class Harden(Idle):
    """Glass-hard and brittle until it is tempered, so the job may not rest in between."""

    NAME: ClassVar[str] = "harden"
    SUMMARY: ClassVar[str] = "Bring the steel just past where a magnet lets go, even all through, and quench."
    HEAT_KIND: ClassVar[str] = "treatment"
    UNDONE_BY_FIRE: ClassVar[bool] = True
    QUENCHES: ClassVar[bool] = True
    EXTRAS: ClassVar[Mapping[str, str]] = {
        "temperature": "temperature",
        "soak": "minutes",
        "hardness": "hardness",
        "warp": "gap",
    }
    UNSAFE_UNTIL: ClassVar[frozenset[str]] = frozenset({"temper"})
    UNSAFE_WHY: ClassVar[str] = "quenched steel that is left untempered cracks by itself, often overnight"
    CAUTION: ClassVar[str] = BRITTLE
