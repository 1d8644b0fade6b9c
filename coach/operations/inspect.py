"""Inspecting: sizes and soundness are looked at before going on."""

from __future__ import annotations

from collections.abc import Mapping
from typing import ClassVar

from coach.operations.does import HeatKind
from coach.operations.idle import Idle


class Inspect(Idle):
    """Any size of the zone may be asked for; nothing is changed."""

    NAME: ClassVar[str] = "inspect"
    EXTRAS: ClassVar[Mapping[str, str]] = {
        "cheek": "length",
        "other_cheek": "length",
        "bow": "gap",
        "wind": "gap",
        "curve_height": "gap",
        "groove_depth": "length",
    }
    SUMMARY: ClassVar[str] = "Look it over cold: sizes, cracks, the weld line."
    HEATS: ClassVar[int] = 0
    HEAT_KIND: ClassVar[HeatKind] = HeatKind.COLD
