"""Operations that reach their sizes by taking metal away instead of moving it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import ClassVar

from coach.forms import Form
from coach.operations.base import Operation, Work, Worked

#: What is usually left on an end for the stone or the file (common practice, no source).
USUAL_END_SKIN_MM = 0.5


class Wear(Operation):
    """The dimensions that are not asked for stay as they are; the volume follows from the sizes."""

    FIXES: ClassVar[bool] = True
    HEATS: ClassVar[int] = 0
    HEAT_KIND: ClassVar[str] = "cold"
    AMOUNTS: ClassVar[Mapping[str, str]] = {"skin": "length"}

    def surplus_mm3(self, before: Form, volume_mm3: float, work: Work) -> float:
        """Metal beyond the stated length and the skin left on it."""
        assert work.free_mm is not None
        skin_mm = work.amounts.get("skin_mm", USUAL_END_SKIN_MM)
        return volume_mm3 - before.with_sizes({work.free: work.free_mm + skin_mm}).volume_mm3()

    def work(self, before: Form, volume_mm3: float, work: Work) -> Worked:
        """Take the metal off; nothing grows."""
        free_mm = before.size_mm(work.free)
        if work.free_mm is not None:
            free_mm = min(free_mm, work.free_mm)
        form = work.shape.draft({**work.sizes_mm, work.free: free_mm})
        left = min(volume_mm3, form.volume_mm3())
        return Worked(form.solved(work.free, left), left, {"ground": volume_mm3 - left})
