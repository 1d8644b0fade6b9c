"""Sharpening: the edge is brought to its angle and honed."""

from __future__ import annotations

from collections.abc import Mapping
from typing import ClassVar

from coach.operations.does import Does, HeatKind
from coach.operations.idle import Idle
from coach.quantities import Kind


class Sharpen(Idle):
    """The metal it takes is too little to count."""

    NAME: ClassVar[str] = "sharpen"
    DOES: ClassVar[frozenset[Does]] = frozenset({Does.WORKS_AN_EDGE, Does.BRIGHT_WORK})
    SUMMARY: ClassVar[str] = "Bring the edge to its angle, keep it cool, and hone it."
    ACCOUNT: ClassVar[str] = "too little to count"
    HEATS: ClassVar[int] = 0
    HEAT_KIND: ClassVar[HeatKind] = HeatKind.COLD
    GAUGE: ClassVar[str] = "template"
    EXTRAS: ClassVar[Mapping[str, Kind]] = {"edge_angle": Kind.ANGLE, "bevel_width": Kind.LENGTH}
    CAUTION: ClassVar[str] = (
        "Grinding: eyes and lungs covered, rest close to the stone, nobody in line with it."
    )
