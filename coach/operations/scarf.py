"""Scarfing: an end is thinned to a lip that welds down without a step."""

from __future__ import annotations

from coach.operations.idle import Idle
from coach.quantities import Kind


class Scarf(Idle):
    """The lip's length is measured; the metal it holds stays in the zone."""

    GROWS = {"scarf_length": True}
    SUMMARY = "Thin the lip, a little longer than the metal is thick, and leave it slightly crowned."
    EXTRAS = {"scarf_length": Kind.LENGTH}
