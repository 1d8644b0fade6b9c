"""Barbs are raised on steel, so that it holds where it is laid until the weld takes."""

from __future__ import annotations

from collections.abc import Mapping
from typing import ClassVar

from coach.operations.base import Operation
from coach.quantities import Kind


class Barb(Operation):
    """The barbs' height is measured; their metal stays in the zone."""

    NAME: ClassVar[str] = "barb"
    SUMMARY: ClassVar[str] = (
        "Raise barbs along both rims with a sharp hot chisel, all leaning towards the iron they bite into."
    )
    RESHAPES: ClassVar[bool] = False
    GROWS: ClassVar[Mapping[str, bool]] = {"barb_height": True}
    EXTRAS: ClassVar[Mapping[str, Kind]] = {"barb_height": Kind.LENGTH}
