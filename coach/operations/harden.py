"""Hardening: the steel is quenched from above its critical heat."""

from __future__ import annotations

from typing import ClassVar

from coach.operations.idle import Idle


class Harden(Idle):
    """Glass-hard and brittle until it is tempered, so the job may not rest in between."""

    NAME: ClassVar[str] = "harden"
    SUMMARY: ClassVar[str] = "Bring the steel just past where a magnet lets go, even all through, and quench."
    HEAT_KIND: ClassVar[str] = "treatment"
    UNSAFE_UNTIL: ClassVar[frozenset[str]] = frozenset({"temper"})
    CAUTION: ClassVar[str] = (
        "Oil can flare: metal lid at hand, nothing wet in it, no water on an oil fire. Water and brine spit, "
        "and steel can burst in them: stand aside. Untempered steel breaks: do not drop or strike it."
    )
