"""Annealing: the metal is softened by cooling as slowly as can be."""

from __future__ import annotations

from collections.abc import Mapping
from typing import ClassVar

from coach.metals.quenches import QUENCHES
from coach.operations.does import HeatKind
from coach.operations.idle import Idle
from coach.quantities import Kind


class Anneal(Idle):
    """In the banked fire, ash or lime."""

    NAME: ClassVar[str] = "anneal"
    SUMMARY: ClassVar[str] = "Heat evenly past critical and bury it to cool slowly."
    HEAT_KIND: ClassVar[HeatKind] = HeatKind.TREATMENT
    UNDONE_BY_FIRE: ClassVar[bool] = True
    EXTRAS: ClassVar[Mapping[str, Kind]] = {"temperature": Kind.TEMPERATURE, "soak": Kind.TIME}
    CAUTION: ClassVar[str] = QUENCHES["air"]
