"""Tapering: a zone is drawn to a smaller section at its far end."""

from __future__ import annotations

from typing import ClassVar

from coach.operations.base import Operation


class Taper(Operation):
    """Leaves a taper between the section at its start and the one at its finish."""

    NAME: ClassVar[str] = "taper"
    SUMMARY: ClassVar[str] = "Draw the zone down towards its far end."
    FORM: ClassVar[str | None] = "taper"
    HEATS: ClassVar[int] = 2
