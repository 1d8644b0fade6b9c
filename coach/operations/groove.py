"""Grooving: metal is pushed aside to make a groove or a cleft; none is taken away."""

from __future__ import annotations

from collections.abc import Mapping
from typing import ClassVar

from coach.operations.base import Operation
from coach.operations.does import Does
from coach.quantities import Kind


class Groove(Operation):
    """The groove's own sizes are measured; the zone's volume stays."""

    NAME: ClassVar[str] = "groove"
    DOES: ClassVar[frozenset[Does]] = frozenset({Does.GROOVES})
    SUMMARY: ClassVar[str] = "Cut or fuller the groove; the metal goes aside, not away."
    ACCOUNT: ClassVar[str] = "nothing: metal goes aside"
    RESHAPES: ClassVar[bool] = False
    GROWS: ClassVar[Mapping[str, bool]] = {"groove_depth": True, "groove_width": True, "groove_length": True}
    EXTRAS: ClassVar[Mapping[str, Kind]] = {
        "groove_depth": Kind.LENGTH,
        "groove_width": Kind.LENGTH,
        "groove_length": Kind.LENGTH,
    }
