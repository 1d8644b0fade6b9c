"""Inspecting: sizes and soundness are looked at before going on."""

from __future__ import annotations

from coach.operations.idle import Cold
from coach.quantities import Kind


class Inspect(Cold):
    """Any size of the zone may be asked for; nothing is changed."""

    EXTRAS = {
        "cheek": Kind.LENGTH,
        "other_cheek": Kind.LENGTH,
        "bow": Kind.GAP,
        "wind": Kind.GAP,
        "curve_height": Kind.GAP,
        "groove_depth": Kind.LENGTH,
    }
    SUMMARY = "Look it over cold: sizes, cracks, welds where there are any."
    ALSO_CALLED = ("look", "look over", "measure")
