"""Spreading: a zone is made thinner so that it grows wider."""

from __future__ import annotations

from coach.operations.hammered import Thinned


class Spread(Thinned):
    """The width takes what the thickness gives up, unless the recipe frees another dimension."""

    SUMMARY = "Thin the zone so that it goes wide, with the peen or a fuller along its length."
    ALSO_CALLED = ("flatten", "widen", "thin", "forge", "peen")
    ACCOUNT = "sizes not asked for run with the thinning; `bite`: one and a half times the width unless said"
    FREE = "width"
    BITE_SHARE = 1.5
    RUNS = True
    HEATS = 3
