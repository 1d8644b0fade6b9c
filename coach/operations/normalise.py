"""Normalising: the grain is refined by heating past critical and cooling in still air."""

from __future__ import annotations

from collections.abc import Mapping
from typing import ClassVar

from coach.metals.quenches import QUENCHES
from coach.operations.does import Does, HeatKind
from coach.operations.idle import Idle
from coach.quantities import Kind


class Normalise(Idle):
    """Several descending heats; each scales a little."""

    NAME: ClassVar[str] = "normalise"
    DOES: ClassVar[frozenset[Does]] = frozenset({Does.NORMALISES})
    SUMMARY: ClassVar[str] = "Heat evenly past critical and let it cool in still air, out of any draught."
    HEATS: ClassVar[int] = 3
    HEAT_KIND: ClassVar[HeatKind] = HeatKind.TREATMENT
    UNDONE_BY_FIRE: ClassVar[bool] = True
    EXTRAS: ClassVar[Mapping[str, Kind]] = {"temperature": Kind.TEMPERATURE, "soak": Kind.TIME}
    CAUTION: ClassVar[str] = QUENCHES["air"]
