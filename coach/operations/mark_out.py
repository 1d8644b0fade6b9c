"""Marking out: the zones are marked along the cold stock, from one end."""

from __future__ import annotations

from typing import ClassVar

from coach.operations.does import Does, HeatKind, Scope
from coach.operations.idle import Idle


class MarkOut(Idle):
    """Lengths between marks are the zones' lengths; a reading of one moves its neighbour too."""

    NAME: ClassVar[str] = "mark out"
    DOES: ClassVar[frozenset[Does]] = frozenset({Does.MARKS_OUT})
    SUMMARY: ClassVar[str] = "Mark the zones along the cold stock, all from one end."
    ACCOUNT: ClassVar[str] = "nothing; over a whole `piece`, before it is worked"
    SCOPE: ClassVar[Scope] = Scope.PIECE
    HEATS: ClassVar[int] = 0
    HEAT_KIND: ClassVar[HeatKind] = HeatKind.COLD
    GAUGE: ClassVar[str] = "rule"
