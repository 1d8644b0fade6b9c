"""Filing: small amounts are taken off cold to bring a size home."""

from __future__ import annotations

from collections.abc import Mapping
from typing import ClassVar

from coach.operations.does import Does
from coach.operations.wear import Wear
from coach.quantities import Kind


class File(Wear):
    """Grinding by hand."""

    NAME: ClassVar[str] = "file"
    DOES: ClassVar[frozenset[Does]] = frozenset({Does.WORKS_AN_EDGE, Does.BRIGHT_WORK})
    EXTRAS: ClassVar[Mapping[str, Kind]] = {"edge_angle": Kind.ANGLE, "bevel_width": Kind.LENGTH}
    SUMMARY: ClassVar[str] = "File to size, clean and square."
    ACCOUNT: ClassVar[str] = "as grind, `skin` too"
