"""Scarfing: an end is thinned to a lip that welds down without a step."""

from __future__ import annotations

from collections.abc import Mapping
from typing import ClassVar

from coach.operations.base import Operation
from coach.quantities import Kind


class Scarf(Operation):
    """The lip's length is measured; the metal it holds stays in the zone."""

    NAME: ClassVar[str] = "scarf"
    SUMMARY: ClassVar[str] = (
        "Thin the lip, a little longer than the metal is thick, and leave it slightly crowned."
    )
    RESHAPES: ClassVar[bool] = False
    GROWS: ClassVar[Mapping[str, bool]] = {"scarf_length": True}
    EXTRAS: ClassVar[Mapping[str, Kind]] = {"scarf_length": Kind.LENGTH}
