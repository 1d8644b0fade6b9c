"""Bevelling: an edge is forged thin, and the bar curves and widens as it goes."""

from __future__ import annotations

from collections.abc import Mapping
from typing import ClassVar

from coach.operations.base import Operation
from coach.operations.does import Does
from coach.quantities import Kind


class Bevel(Operation):
    """The zone's length runs from the back to the edge, its width along the edge.

    `bevel` is how far the bevel reaches back from the edge, the whole length when nothing is said; `chord` is
    the straight-edge that its curve is measured over, 100 mm when nothing is said. Neither takes metal.
    """

    NAME: ClassVar[str] = "bevel"
    DOES: ClassVar[frozenset[Does]] = frozenset({Does.BEVELS})
    SUMMARY: ClassVar[str] = (
        "Hammer the edge thin from end to end and back, a little each time; set the curve as it comes."
    )
    ACCOUNT: ClassVar[str] = (
        "the zone's length runs from back to edge; `bevel`, how far it reaches back, and `chord`,"
        " the straight-edge over which `curve height` is measured, how far the middle has swung "
        "out since the bevel was begun, take nothing"
    )
    FORM: ClassVar[str | None] = "taper"
    HEATS: ClassVar[int] = 2
    EXTRAS: ClassVar[Mapping[str, Kind]] = {"curve_height": Kind.GAP}
    AMOUNTS: ClassVar[Mapping[str, Kind]] = {"bevel": Kind.LENGTH, "chord": Kind.LENGTH}
