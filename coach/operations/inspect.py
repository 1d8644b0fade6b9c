"""Inspecting: sizes and soundness are looked at before going on."""

from __future__ import annotations

from collections.abc import Mapping
from typing import ClassVar

from coach.operations.does import HeatKind
from coach.operations.idle import Idle
from coach.quantities import Kind


class Inspect(Idle):
    """Any size of the zone may be asked for; nothing is changed."""

    NAME: ClassVar[str] = "inspect"
    EXTRAS: ClassVar[Mapping[str, Kind]] = {
        "cheek": Kind.LENGTH,
        "other_cheek": Kind.LENGTH,
        "bow": Kind.GAP,
        "wind": Kind.GAP,
        "curve_height": Kind.GAP,
        "groove_depth": Kind.LENGTH,
    }
    SUMMARY: ClassVar[str] = "Look it over cold: sizes, cracks, the weld line."
    HEATS: ClassVar[int] = 0
    HEAT_KIND: ClassVar[HeatKind] = HeatKind.COLD
