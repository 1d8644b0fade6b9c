"""Tapering: a zone is drawn to a smaller section at its far end."""

from __future__ import annotations

from collections.abc import Mapping
from typing import ClassVar

from coach.operations.base import Operation
from coach.operations.does import Does
from coach.quantities import Kind


class Taper(Operation):
    """Leaves a taper between the section at its start and the one at its finish."""

    NAME: ClassVar[str] = "taper"
    DOES: ClassVar[frozenset[Does]] = frozenset({Does.HAMMERS_A_SECTION})
    SUMMARY: ClassVar[str] = "Draw the zone down towards its far end."
    ACCOUNT: ClassVar[str] = "`bite` as in draw"
    FORM: ClassVar[str | None] = "taper"
    BITE_SHARE: ClassVar[float | None] = 0.5
    AMOUNTS: ClassVar[Mapping[str, Kind]] = {"bite": Kind.LENGTH}
    HEATS: ClassVar[int] = 2
