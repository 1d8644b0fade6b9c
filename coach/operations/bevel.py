"""Bevelling: an edge is forged thin, and the bar curves and widens as it goes."""

from __future__ import annotations

from coach.operations.base import Operation
from coach.operations.does import Does
from coach.quantities import Kind


class Bevel(Operation):
    """The zone's length runs from the back to the edge, its width along the edge.

    `bevel` is how far the bevel reaches back from the edge, the whole length when nothing is said; `chord` is
    the straight-edge that its curve is measured over, 100 mm when nothing is said. Neither takes metal.
    """

    DOES = frozenset({Does.BEVELS})
    SUMMARY = "Hammer the edge thin from end to end and back, a little each time; set the curve as it comes."
    ALSO_CALLED = ("chamfer",)
    ACCOUNT = (
        "the zone's length runs from back to edge; `bevel`, how far it reaches back, and `chord`,"
        " the straight-edge over which `curve height` is measured, how far the middle has swung "
        "out since the bevel was begun, take nothing"
    )
    FORM = "taper"
    HEATS = 2
    EXTRAS = {"curve_height": Kind.GAP}
    AMOUNTS = {"bevel": Kind.LENGTH, "chord": Kind.LENGTH}
