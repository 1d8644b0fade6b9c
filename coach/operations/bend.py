"""Bending: the centre line turns; the volume and the section stay."""

from __future__ import annotations

from coach.operations.does import Does
from coach.operations.idle import Idle
from coach.quantities import Kind


class Bend(Idle):
    """Angle and inside radius are measured; a recipe may name a ring as the form that it leaves."""

    DOES = frozenset({Does.BENDS})
    LIGHT = True
    KEEPS_SECTION = "what is bent keeps the section of its bar"
    SUMMARY = "Bend to the angle and radius, by the template."
    ALSO_CALLED = ("turn", "curve", "curl", "form")
    ACCOUNT = "a `form` of ring may be named"
    EXTRAS = {
        "angle": Kind.ANGLE,
        "radius": Kind.LENGTH,
        "curve_height": Kind.LENGTH,
    }
    GROWS = {"angle": True, "radius": False, "curve_height": True}
    GAUGE = "template"
