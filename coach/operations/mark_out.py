"""Marking out: the zones are marked along the cold stock, from one end."""

from __future__ import annotations

from typing import ClassVar

from coach.operations.idle import Idle


class MarkOut(Idle):
    """Lengths between marks are the zones' lengths; a reading of one moves its neighbour too."""

    NAME: ClassVar[str] = "mark out"
    SUMMARY: ClassVar[str] = "Mark the zones along the cold stock, all from one end."
    SCOPE: ClassVar[str] = "piece"
    HEATS: ClassVar[int] = 0
    HEAT_KIND: ClassVar[str] = "cold"
    GAUGE: ClassVar[str] = "rule"
