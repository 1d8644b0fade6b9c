"""Tacking: laid steel is caught in place with a few light blows, ready for the weld."""

from __future__ import annotations

from typing import ClassVar, Final

from coach.operations.does import Does, HeatKind
from coach.operations.idle import Idle
from coach.operations.reweld import FLUX_CAUTION

LETS_GO: Final = "a tack lets go, and the faces under it rust where nothing can clean them"


class Tack(Idle):
    """A tack holds, it is not a weld: the job may not rest on one."""

    NAME: ClassVar[str] = "tack"
    DOES: ClassVar[frozenset[Does]] = frozenset({Does.BRIGHT_WORK})
    SUMMARY: ClassVar[str] = "Flux, bring both to heat together and catch the steel with a few light blows."
    ACCOUNT: ClassVar[str] = "no rest before the weld"
    HEAT_KIND: ClassVar[HeatKind] = HeatKind.WELDING
    UNSAFE_UNTIL: ClassVar[Does | None] = Does.JOINS
    UNSAFE_WHY: ClassVar[str] = LETS_GO
    CAUTION: ClassVar[str] = FLUX_CAUTION
