"""Spreading: a zone is made thinner so that it grows wider."""

from __future__ import annotations

from collections.abc import Mapping
from typing import ClassVar

from coach.operations.base import Operation
from coach.operations.does import Does
from coach.quantities import Kind


class Spread(Operation):
    """The width takes what the thickness gives up, unless the recipe frees another dimension."""

    NAME: ClassVar[str] = "spread"
    DOES: ClassVar[frozenset[Does]] = frozenset({Does.HAMMERS_A_SECTION})
    SUMMARY: ClassVar[str] = "Thin the zone so that it goes wide, with the peen or a fuller along its length."
    ACCOUNT: ClassVar[str] = (
        "sizes not asked for run with the thinning; `bite`: one and a half times the width unless said"
    )
    FREE: ClassVar[str | None] = "width"
    BITE_SHARE: ClassVar[float | None] = 1.5
    RUNS: ClassVar[bool] = True
    AMOUNTS: ClassVar[Mapping[str, Kind]] = {"bite": Kind.LENGTH}
    HEATS: ClassVar[int] = 3
