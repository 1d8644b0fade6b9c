"""Grooving: metal is pushed aside to make a groove or a cleft; none is taken away."""

from __future__ import annotations

from coach.operations.does import Does
from coach.operations.idle import Idle
from coach.quantities import Kind


class Groove(Idle):
    """The groove's own sizes are measured; the zone's volume stays."""

    DOES = frozenset({Does.GROOVES})
    SUMMARY = "Cut or fuller the groove; the metal goes aside, not away."
    ALSO_CALLED = ("fuller", "crease", "chase")
    ACCOUNT = "nothing: metal goes aside"
    GROWS = {"groove_depth": True, "groove_width": True, "groove_length": True}
    EXTRAS = {
        "groove_depth": Kind.LENGTH,
        "groove_width": Kind.LENGTH,
        "groove_length": Kind.LENGTH,
    }
