"""Setting down: a zone is drawn smaller beside a shoulder that stays."""

from __future__ import annotations

from coach.operations.hammered import Thinned
from coach.quantities import Kind


class SetDown(Thinned):
    """Drawing with an edge to work against; the shoulder is the zone's own start."""

    SUMMARY = "Set the zone down against the shoulder; the length follows."
    ALSO_CALLED = ("neck", "shoulder", "step down", "fuller")
    ACCOUNT = "`bite` as in draw"
    EXTRAS = {"shoulder": Kind.LENGTH}
    GROWS = {"shoulder": True}
