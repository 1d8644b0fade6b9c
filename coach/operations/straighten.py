"""Straightening: a zone is brought back to its line."""

from __future__ import annotations

from collections.abc import Mapping
from typing import ClassVar

from coach.operations.idle import Idle
from coach.quantities import Kind


class Straighten(Idle):
    """What it was out by is measured as wind or bow."""

    NAME: ClassVar[str] = "straighten"
    SUMMARY: ClassVar[str] = "Sight along it and bring it true."
    EXTRAS: ClassVar[Mapping[str, Kind]] = {"bow": Kind.GAP, "wind": Kind.GAP}
    GAUGE: ClassVar[str] = "rule"
