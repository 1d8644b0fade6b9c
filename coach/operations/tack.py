"""Tacking: laid steel is caught in place with a few light blows, ready for the weld."""

from __future__ import annotations

from typing import Final

from coach.operations.does import Does, HeatKind
from coach.operations.idle import Idle
from coach.quantities import Kind

LETS_GO: Final = "a tack lets go, and the faces under it rust where nothing can clean them"


class Tack(Idle):
    """A tack holds, it is not a weld: the job may not rest on one."""

    DOES = frozenset({Does.BRIGHT_WORK})
    SUMMARY = "Flux, bring both to heat together and catch the steel with a few light blows."
    ACCOUNT = "no rest before the weld"
    HEAT_KIND = HeatKind.WELDING
    EXTRAS = {"temperature": Kind.TEMPERATURE}
    UNSAFE_UNTIL = Does.JOINS
    UNSAFE_WHY = LETS_GO
