"""Asks about what is brought in from its edges further than a hammer brings a wide flat: it folds on edge."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from coach.fire.passes import FOLDS_FROM
from coach.ledger.nominal import Stage
from coach.ledger.working import reshapes
from coach.operations import Does
from coach.quantities import Words, mm, say

#: A bar so many times as wide as thick is the widest that is brought in by blows on its edges without further
#: ado: each half stands no taller on edge than it does without folding (judgement).
_WIDEST: Final = 2.0 * FOLDS_FROM
#: Brought in to less than this share of its width, it is not dressed back any more. A tang half as wide as
#: its blade is drawn every day (judgement).
_BROUGHT_IN_SHARE: Final = 0.4
#: What a bar may come out at the end of a zone as well (by definition).
_ACROSS: Final = ("width", "side", "diameter", "across_flats")


def is_brought_in(have: Mapping[str, float], leaves: Mapping[str, float]) -> bool:
    """Whether a wide flat comes out far narrower all along, by sizes in mm: no dressing does that."""
    wide_mm, thick_mm = have.get("width", 0.0), have.get("thickness", 0.0)
    if not thick_mm or wide_mm <= _WIDEST * thick_mm:
        return False
    across = (max(leaves[one], leaves.get(f"end_{one}", 0.0)) for one in _ACROSS if one in leaves)
    return next(across, wide_mm) < _BROUGHT_IN_SHARE * wide_mm


def brought_in(stage: Stage) -> Words | None:
    """A wide flat that is hammered far narrower, where its step says nothing of how; None elsewhere."""
    step = stage.step
    if step.how or not step.does(Does.HAMMERS_A_SECTION) or not reshapes(step, stage.zone):
        return None
    have, leaves = stage.form_before.sizes_mm(), stage.form_after.sizes_mm()
    if not is_brought_in(have, leaves):
        return None
    return say(
        "{} is {} wide there and {} thick, and struck on its edge it folds: begin with a bar no wider than "
        "{}, or say under how that it is fullered in from both edges; what is cut off its sides instead is "
        "metal that it loses.",
        *(stage.zone, mm(have["width"]), mm(have["thickness"]), mm(_WIDEST * have["thickness"])),
    )
