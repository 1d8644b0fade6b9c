"""Hafting: the handle is fitted, wedged and checked."""

from __future__ import annotations

from collections.abc import Mapping
from typing import ClassVar

from coach.operations.does import Does, HeatKind
from coach.operations.idle import Idle
from coach.quantities import Kind


class Haft(Idle):
    """Cold work on the finished head."""

    NAME: ClassVar[str] = "haft"
    DOES: ClassVar[frozenset[Does]] = frozenset({Does.FITS_A_HAFT, Does.BRIGHT_WORK})
    SUMMARY: ClassVar[str] = "Fit the haft to the eye, drive it home and wedge it."
    HEATS: ClassVar[int] = 0
    HEAT_KIND: ClassVar[HeatKind] = HeatKind.COLD
    UNDONE_BY_FIRE: ClassVar[bool] = True
    BEFORE_FIRE: ClassVar[str] = "Take the haft out before it goes near the fire."
    GAUGE: ClassVar[str] = "rule"
    EXTRAS: ClassVar[Mapping[str, Kind]] = {
        "haft_length": Kind.LENGTH,
        "hang": Kind.ANGLE,
        "proud": Kind.LENGTH,
        "kerf_depth": Kind.LENGTH,
        "wedge": Kind.LENGTH,
        "balance": Kind.LENGTH,
    }
    CAUTION: ClassVar[str] = (
        "Wood dust: lungs covered. Drive the wedge with the head held down, never in the hand; a sharp "
        "edge is taped first."
    )
