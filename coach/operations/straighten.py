"""Straightening: a zone is brought back to its line."""

from __future__ import annotations

from types import MappingProxyType

from coach.operations.idle import Idle
from coach.quantities import Kind, as_words

#: What takes a bow out, and a wind, while nothing is hard (common practice, no source).
_LAID_HOLLOW = as_words(
    "one more heat at orange, laid hollow side down and struck lightly on the crown; look along it again "
    "once it is cold."
)
_TURNED_BACK = as_words(
    "one more heat at orange, one end held fast and the other turned back with tongs until both lie in one "
    "plane; look along it again once it is cold."
)

#: What takes a bulge down, and what becomes of a hollow, which no blow fills (common practice, no source).
_BULGED = as_words(
    "at a full heat, blows from the crown outwards until a straight edge lies on it; what is set down runs "
    "along and across."
)
_HOLLOW = as_words(
    "no blow fills it: set down or grind what stands around it to its bottom, and read the size again there, "
    "which is less by as much."
)


class Straighten(Idle):
    """What it was out by is measured as wind or bow; of a face a bulge or a hollow, under a straight edge."""

    LIGHT = True
    SUMMARY = "Sight along it and bring it true."
    ALSO_CALLED = ("true", "true up", "level")
    EXTRAS = {"bow": Kind.GAP, "wind": Kind.GAP, "bulge": Kind.GAP, "hollow": Kind.GAP}
    GROWS = {"bow": False, "wind": False, "bulge": False, "hollow": False}
    GAUGE = "rule"
    AFTER_OUT = MappingProxyType(
        {"bow": _LAID_HOLLOW, "wind": _TURNED_BACK, "bulge": _BULGED, "hollow": _HOLLOW}
    )
