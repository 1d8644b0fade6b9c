"""Setting down: a zone is drawn smaller beside a shoulder that stays."""

from __future__ import annotations

from collections.abc import Mapping
from typing import ClassVar

from coach.operations.base import Operation
from coach.operations.does import Does
from coach.quantities import Kind


class SetDown(Operation):
    """Drawing with an edge to work against; the shoulder is the zone's own start."""

    NAME: ClassVar[str] = "set down"
    DOES: ClassVar[frozenset[Does]] = frozenset({Does.HAMMERS_A_SECTION})
    SUMMARY: ClassVar[str] = "Set the zone down against the shoulder; the length follows."
    ACCOUNT: ClassVar[str] = "`bite` as in draw"
    EXTRAS: ClassVar[Mapping[str, Kind]] = {"shoulder": Kind.LENGTH}
    BITE_SHARE: ClassVar[float | None] = 0.5
    AMOUNTS: ClassVar[Mapping[str, Kind]] = {"bite": Kind.LENGTH}
    HEATS: ClassVar[int] = 2
