"""Marking out: the zones are marked along the cold stock, from one end."""

from __future__ import annotations

from coach.operations.does import Does, Scope
from coach.operations.idle import Cold


class MarkOut(Cold):
    """Lengths between marks are the zones' lengths; a reading of one moves its neighbour too."""

    DOES = frozenset({Does.MARKS_OUT})
    SUMMARY = "Mark the zones along the cold stock, all from one end."
    ACCOUNT = "nothing; over a whole `piece`, before it is worked"
    SCOPE = Scope.PIECE
    GAUGE = "rule"
