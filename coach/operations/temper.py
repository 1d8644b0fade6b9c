"""Tempering: hardened steel is warmed to give up some hardness for toughness."""

from __future__ import annotations

from collections.abc import Mapping
from typing import ClassVar

from coach.operations.does import Does, HeatKind
from coach.operations.idle import Idle
from coach.quantities import Kind


class Temper(Idle):
    """Scales nothing worth counting."""

    NAME: ClassVar[str] = "temper"
    DOES: ClassVar[frozenset[Does]] = frozenset({Does.TEMPERS})
    SUMMARY: ClassVar[str] = "Warm it slowly until the colour wanted reaches the edge, then stop it."
    HEATS: ClassVar[int] = 0
    HEAT_KIND: ClassVar[HeatKind] = HeatKind.COLD
    UNDONE_BY_FIRE: ClassVar[bool] = True
    EXTRAS: ClassVar[Mapping[str, Kind]] = {
        "temperature": Kind.TEMPERATURE,
        "soak": Kind.TIME,
        "hardness": Kind.HARDNESS,
        "warp": Kind.GAP,
    }
    CAUTION: ClassVar[str] = "Black-hot steel looks cold: tongs or gloves until it is quenched out."
