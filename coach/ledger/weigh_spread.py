"""Weighs spreading: a width that hardly leaves the metal anything to run along its bar with."""

from __future__ import annotations

from math import log
from typing import Final

from coach.ledger.nominal import Stage
from coach.ledger.working import reshapes
from coach.operations import Does
from coach.quantities import Words, mm, say

#: Of what is thinned out no peen and no die sends more than this share across the bar: the rest runs along
#: it, by logarithms of the sizes (judgement).
_ACROSS_AT_MOST: Final = 0.9
#: Widths and thicknesses that change by less than this share are dressed, not spread (our choice).
_SPREAD_FROM: Final = 1.05
#: The sizes of a plain flat bar.
_FLAT: Final = {"width", "thickness", "length"}


def spread_too_far(stage: Stage) -> Words | None:
    """A flat bar whose length is left to follow, and that would have to run across alone; None elsewhere."""
    step, have, leaves = stage.step, stage.form_before.sizes_mm(), stage.form_after.sizes_mm()
    if not step.does(Does.HAMMERS_A_SECTION) or stage.zone not in step.zones or stage.laid_mm3:
        return None
    if not reshapes(step, stage.zone) or stage.after.free != "length":
        return None
    same = stage.form_before.KIND == stage.form_after.KIND
    if not same or have.keys() != _FLAT or leaves.keys() != _FLAT:
        return None
    wider, thinner = leaves["width"] / have["width"], have["thickness"] / leaves["thickness"]
    if wider < _SPREAD_FROM or thinner < 1.0 or log(wider) <= _ACROSS_AT_MOST * log(thinner):
        return None
    return say(
        "thinned from {} to {} {} would have to run across alone to come out {} wide from {}, and some of it "
        "always runs along: is that width meant? Take a wider bar, or forge it thinner.",
        *(mm(have["thickness"]), mm(leaves["thickness"]), stage.zone, mm(leaves["width"]), mm(have["width"])),
    )
