"""Tapering: a zone is drawn to a smaller section at its far end."""

from __future__ import annotations

from coach.operations.hammered import Thinned


class Taper(Thinned):
    """Leaves a taper between the section at its start and the one at its finish."""

    SUMMARY = "Draw the zone down towards its far end."
    ALSO_CALLED = ("point", "forge", "draw to a point")
    ACCOUNT = "`bite` as in draw"
    FORM = "taper"
