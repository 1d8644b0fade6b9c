"""Weighs what a punch is to make of the section around its hole: it pushes aside what the hole had."""

from __future__ import annotations

from typing import Final

from coach.forms.eyed import Eyed
from coach.ledger.nominal import Stage
from coach.ledger.weigh_bigger import DRESSED_DOWN_TIMES, most_mm2
from coach.operations import Does, operation
from coach.quantities import Figure, Kind, Words, say

#: How much more a section may come out than with all that its hole pushes aside, as a share: rounding, and a
#: bar's own play (judgement).
_PLAY_SHARE: Final = 0.05


def reshaped_by_punch(stage: Stage) -> Words | None:
    """What is punched and is to come out with far more or far less across it; None of all else."""
    before, after, step = stage.form_before, stage.form_after, stage.step
    if not step.does(Does.PUNCHES) or operation(step.operation).FIXES or not isinstance(after, Eyed):
        return None
    if stage.zone not in step.zones or "length" not in before.DIMENSIONS or before.unbent() is not None:
        return None
    sizes = after.sizes_mm()
    # The widest of the hole across it, as deep as it goes through.
    hole_mm2 = sizes["hole_width"] * sizes[stage.after.shape.options.get("through", "thickness")]
    have_mm2, left_mm2 = most_mm2(before), most_mm2(after)
    have, left, hole = (Figure(one, Kind.AREA) for one in (have_mm2, left_mm2, hole_mm2))
    if left_mm2 > (have_mm2 + hole_mm2) * (1.0 + _PLAY_SHARE):
        return say(
            "{} has {} across it before it is punched and is to have {} after: a punch pushes aside what its "
            "hole had, {} here. Make it larger in a step before, or ask for the section that it has.",
            *(stage.zone, have, left, hole),
        )
    if have_mm2 > DRESSED_DOWN_TIMES * left_mm2:
        return say(
            "{} has {} across it before it is punched and is to have {} after: a punch draws no bar. Draw it "
            "in a step of its own.",
            *(stage.zone, have, left),
        )
    return None
