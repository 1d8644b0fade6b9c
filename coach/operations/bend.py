"""Bending: the centre line turns; the volume and the section stay."""

from __future__ import annotations

from collections.abc import Mapping
from typing import ClassVar

from coach.operations.base import Operation
from coach.operations.does import Does
from coach.quantities import Kind


class Bend(Operation):
    """Angle and inside radius are measured; a recipe may name a ring as the form that it leaves."""

    NAME: ClassVar[str] = "bend"
    DOES: ClassVar[frozenset[Does]] = frozenset({Does.BENDS})
    SUMMARY: ClassVar[str] = "Bend to the angle and radius, by the template."
    ACCOUNT: ClassVar[str] = "a `form` of ring may be named"
    RESHAPES: ClassVar[bool] = False
    EXTRAS: ClassVar[Mapping[str, Kind]] = {
        "angle": Kind.ANGLE,
        "radius": Kind.LENGTH,
        "curve_height": Kind.LENGTH,
    }
    GROWS: ClassVar[Mapping[str, bool]] = {"angle": True, "radius": False, "curve_height": True}
    GAUGE: ClassVar[str] = "template"
