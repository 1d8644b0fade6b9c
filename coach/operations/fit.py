"""Fitting: two parts are tried together before they are joined."""

from __future__ import annotations

from collections.abc import Mapping
from typing import ClassVar

from coach.operations.does import Does, HeatKind
from coach.operations.idle import Idle
from coach.quantities import Kind


class Fit(Idle):
    """The gap is what is measured."""

    NAME: ClassVar[str] = "fit"
    DOES: ClassVar[frozenset[Does]] = frozenset({Does.BRIGHT_WORK})
    SUMMARY: ClassVar[str] = "Try the parts together; light should not show between them."
    EXTRAS: ClassVar[Mapping[str, Kind]] = {"gap": Kind.GAP}
    HEATS: ClassVar[int] = 0
    HEAT_KIND: ClassVar[HeatKind] = HeatKind.COLD
    GAUGE: ClassVar[str] = "by eye"
