"""Straightening: a zone is brought back to its line."""

from __future__ import annotations

from coach.operations.idle import Idle
from coach.quantities import Kind


class Straighten(Idle):
    """What it was out by is measured as wind or bow."""

    LIGHT = True
    SUMMARY = "Sight along it and bring it true."
    EXTRAS = {"bow": Kind.GAP, "wind": Kind.GAP}
    GROWS = {"bow": False, "wind": False}
    GAUGE = "rule"
