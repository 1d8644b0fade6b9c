"""Operations that move no metal on purpose: the zone keeps its sizes and loses what its heats scale off."""

from __future__ import annotations

from typing import ClassVar

from coach.operations.base import Operation


class Idle(Operation):
    """A step without a new shape: it is looked at, trued, joined up or heat-treated."""

    RESHAPES: ClassVar[bool] = False
