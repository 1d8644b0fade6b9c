"""Cutting round: what stands out beyond a circle on a plate is cut off."""

from __future__ import annotations

import math
from typing import Final

from coach.forms import Form
from coach.forms.flat import Flat
from coach.operations.base import Operation, Work, Worked, stated_loss_mm3
from coach.operations.does import Cause, HeatKind

#: A square is as much larger than the circle that touches its sides (by definition).
_SQUARE_OVER_CIRCLE: Final = 4 / math.pi


class CutRound(Operation):
    """The plate keeps its thickness; what lies outside the circle leaves the piece."""

    SUMMARY = (
        "Strike the circle on the cold plate and cut it round with shears or chisel, then dress its rim."
    )
    ALSO_CALLED = ("trim",)
    ACCOUNT = "what lies outside the circle; the plate keeps its thickness"
    FORM = "disc"
    DRAWN = False  # it is a stage on the way, larger than what it is sunk to
    FIXES = True
    HEATS = 0
    HEAT_KIND = HeatKind.COLD
    HAZARDS = ("sheared",)

    def surplus_mm3(self, before: Form, volume_mm3: float, work: Work) -> float:
        """Metal beyond a plate as long as the circle is wide: a square, or a rectangle of a wider bar."""
        assert work.free_mm is not None
        left = volume_mm3 - stated_loss_mm3(before, volume_mm3, work)
        circle = work.shape.draft({**work.sizes_mm, work.free: work.free_mm})
        wide_mm = before.sizes_mm().get("width", 0.0) if isinstance(before, Flat) else 0.0
        wider = max(wide_mm / work.free_mm, 1.0)
        return left - wider * _SQUARE_OVER_CIRCLE * circle.volume_mm3()

    def work(self, before: Form, volume_mm3: float, work: Work) -> Worked:
        """Take off what lies outside; nothing grows. A circle that nobody stated takes all that there is."""
        scale = work.heats * work.face_loss_mm * self.scaling_surface_mm2(before, before, work)
        stated = stated_loss_mm3(before, volume_mm3, work)
        taken = {cause: lost for cause, lost in ((Cause.STATED, stated), (Cause.SCALE, scale)) if lost}
        left = volume_mm3 - stated - scale
        draft = work.shape.draft({**work.sizes_mm, work.free: work.free_mm or 1.0})
        kept = left if work.free_mm is None else min(left, draft.volume_mm3())
        if left > kept:
            taken[Cause.OFFCUT] = left - kept
        return Worked(draft.solved(work.free, kept), kept, taken)
