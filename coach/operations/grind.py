"""Grinding: metal is taken off cold to bring a size home."""

from __future__ import annotations

from collections.abc import Mapping
from typing import ClassVar

from coach.operations.does import Does
from coach.operations.wear import Wear
from coach.quantities import Kind


class Grind(Wear):
    """The sizes asked for are reached by taking metal away, not by moving it."""

    NAME: ClassVar[str] = "grind"
    DOES: ClassVar[frozenset[Does]] = frozenset({Does.WORKS_AN_EDGE, Does.BRIGHT_WORK})
    EXTRAS: ClassVar[Mapping[str, Kind]] = {"edge_angle": Kind.ANGLE, "bevel_width": Kind.LENGTH}
    SUMMARY: ClassVar[str] = "Grind to size; keep the steel cool enough to hold."
    ACCOUNT: ClassVar[str] = (
        "what the sizes say is gone; before it the zone has the stated free size and a `skin` of "
        "0.5 mm unless said"
    )
    CAUTION: ClassVar[str] = (
        "Grinding: eyes and lungs covered, rest close to the stone, nobody in line with it, no sparks "
        "near oil."
    )
