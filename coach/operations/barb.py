"""Barbs are raised on steel, so that it holds where it is laid until the weld takes."""

from __future__ import annotations

from coach.operations.idle import Idle
from coach.quantities import Kind


class Barb(Idle):
    """The barbs' height is measured; their metal stays in the zone."""

    SUMMARY = (
        "Raise barbs along both rims with a sharp hot chisel, all leaning towards the iron they bite into."
    )
    HAZARDS = ("struck-end",)
    GROWS = {"barb_height": True}
    EXTRAS = {"barb_height": Kind.LENGTH}
