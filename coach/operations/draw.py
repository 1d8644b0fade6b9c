"""Drawing: a section is made smaller and the zone grows longer."""

from __future__ import annotations

from collections.abc import Mapping
from typing import ClassVar

from coach.operations.base import Operation
from coach.operations.does import Does
from coach.quantities import Kind


class Draw(Operation):
    """Settled by the section asked for; the length follows from the metal."""

    NAME: ClassVar[str] = "draw"
    DOES: ClassVar[frozenset[Does]] = frozenset({Does.HAMMERS_A_SECTION})
    SUMMARY: ClassVar[str] = "Work the section down to size; the length follows."
    ACCOUNT: ClassVar[str] = "`bite`: half the width unless said"
    BITE_SHARE: ClassVar[float | None] = 0.5
    AMOUNTS: ClassVar[Mapping[str, Kind]] = {"bite": Kind.LENGTH}
    HEATS: ClassVar[int] = 2
    CAUTION: ClassVar[str] = "Hot scale flies: eyes covered, sleeves down, tongs that fit."
