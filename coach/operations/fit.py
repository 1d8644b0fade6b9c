"""Fitting: two parts are tried together before they are joined."""

from __future__ import annotations

from collections.abc import Mapping
from typing import ClassVar

from coach.operations.idle import Idle


class Fit(Idle):
    """The gap is what is measured."""

    NAME: ClassVar[str] = "fit"
    SUMMARY: ClassVar[str] = "Try the parts together; light should not show between them."
    EXTRAS: ClassVar[Mapping[str, str]] = {"gap": "gap"}
    HEATS: ClassVar[int] = 0
    HEAT_KIND: ClassVar[str] = "cold"
    GAUGE: ClassVar[str] = "by eye"
