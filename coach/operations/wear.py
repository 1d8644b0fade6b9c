"""Operations that reach their sizes by taking metal away instead of moving it."""

from __future__ import annotations

from coach.forms import Form
from coach.operations.base import Operation, Work, Worked, stated_loss_mm3
from coach.operations.does import Cause, Does, HeatKind
from coach.quantities import Kind

#: What is usually left on an end for the stone or the file (common practice, no source).
USUAL_END_SKIN_MM = 0.5


class Wear(Operation):
    """The dimensions that are not asked for stay as they are; the volume follows from the sizes.

    What the recipe states besides comes off the free dimension, before a stated size is looked at.
    """

    DOES = frozenset({Does.WORKS_AN_EDGE, Does.BRIGHT_WORK})
    FIXES = True
    HEATS = 0
    HEAT_KIND = HeatKind.COLD
    EXTRAS = {"edge_angle": Kind.ANGLE, "bevel_width": Kind.LENGTH}
    GROWS = {"edge_angle": False, "bevel_width": True}
    AMOUNTS = {"skin": Kind.LENGTH, "iron_side": Kind.LENGTH}

    def surplus_mm3(self, before: Form, volume_mm3: float, work: Work) -> float:
        """Metal beyond the stated length, the skin left on it and what the recipe states besides."""
        assert work.free_mm is not None
        skin_mm = work.amounts.get("skin_mm", USUAL_END_SKIN_MM)
        left = volume_mm3 - stated_loss_mm3(before, volume_mm3, work)
        return left - before.with_sizes({work.free: work.free_mm + skin_mm}).volume_mm3()

    def work(self, before: Form, volume_mm3: float, work: Work) -> Worked:
        """Take the metal off; nothing grows."""
        stated = stated_loss_mm3(before, volume_mm3, work)
        taken = {Cause.STATED: stated} if stated else {}
        kept = before.solved(work.free, volume_mm3 - stated) if stated else before
        free_mm = kept.size_mm(work.free)
        if work.loss_length_mm and work.free == "length":
            free_mm = before.size_mm("length") - work.loss_length_mm  # however much its end is thinner
        if work.free_mm is not None:
            free_mm = min(free_mm, work.free_mm)
        form = work.shape.draft({**work.sizes_mm, work.free: free_mm})
        left = min(volume_mm3 - stated, form.volume_mm3())
        taken[Cause.GROUND] = volume_mm3 - stated - left
        return Worked(form.solved(work.free, left), left, taken)
