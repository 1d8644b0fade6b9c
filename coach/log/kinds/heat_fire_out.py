"""A heat was taken of a piece that lay in the fire after that had gone out."""

from __future__ import annotations

from typing import ClassVar

from coach.log.kinds.heat import Heat


class HeatFireOut(Heat):
    """One heat of a step that nobody timed, as the piece was not hot all the time that it lay there."""

    CALLED = "a heat after the fire was out"
    SAYS = ("a heat; the fire was out meanwhile",)
    FIRE_WAS_OUT: ClassVar[bool] = True
