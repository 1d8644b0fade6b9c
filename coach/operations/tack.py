"""Tacking: laid steel is caught in place with a few light blows, ready for the weld."""

from __future__ import annotations

from typing import ClassVar

from coach.operations.idle import Idle
from coach.operations.weld import FLUX_CAUTION


class Tack(Idle):
    """A tack holds, it is not a weld: the job may not rest on one."""

    NAME: ClassVar[str] = "tack"
    SUMMARY: ClassVar[str] = "Flux, bring both to heat together and catch the steel with a few light blows."
    HEAT_KIND: ClassVar[str] = "welding"
    UNSAFE_UNTIL: ClassVar[frozenset[str]] = frozenset({"weld"})
    UNSAFE_WHY: ClassVar[str] = "a tack lets go, and the faces under it rust where nothing can clean them"
    CAUTION: ClassVar[str] = FLUX_CAUTION
