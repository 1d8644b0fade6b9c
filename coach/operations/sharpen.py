"""Sharpening: the edge is brought to its angle and honed."""

from __future__ import annotations

from coach.operations.idle import Cold
from coach.operations.wear import Wear


class Sharpen(Cold):
    """The metal it takes is too little to count."""

    DOES = Wear.DOES
    SUMMARY = "Bring the edge to its angle, keep it cool, and hone it."
    ALSO_CALLED = ("hone", "whet", "strop")
    ACCOUNT = "too little to count"
    GAUGE = "template"
    EXTRAS = Wear.EXTRAS
    HAZARDS = ("wheel",)
