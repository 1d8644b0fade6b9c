"""Marking out: the zones are marked along the cold stock, from one end."""

from __future__ import annotations

from coach.operations.does import Does, Scope
from coach.operations.idle import Cold
from coach.operations.measures import CENTRE, MARK
from coach.quantities import Kind


class MarkOut(Cold):
    """Every mark is read from the end; what a zone has by it its neighbour has not."""

    DOES = frozenset({Does.MARKS_OUT})
    SUMMARY = "Mark the zones along the cold stock, all from one end."
    ALSO_CALLED = ("mark", "lay out", "layout", "scribe")
    ACCOUNT = "nothing; over a whole `piece`, before it is worked"
    SCOPE = Scope.PIECE
    EXTRAS = {MARK: Kind.LENGTH, CENTRE: Kind.LENGTH}
    GAUGE = "rule"
