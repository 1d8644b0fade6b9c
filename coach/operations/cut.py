"""Cutting: a zone is cut to length and what is beyond the cut leaves the piece."""

from __future__ import annotations

from collections.abc import Collection

from coach.forms import Form
from coach.operations.base import Operation, Work, Worked, stated_loss_mm3
from coach.operations.does import Cause, Does
from coach.quantities import Kind


class Cut(Operation):
    """Cut at a stated length, or at the length that the rest of the job needs.

    A kerf is lost in sawing (a hot cut loses none). What is left over beyond the cut is the offcut. Before
    the cut the zone must hold the length, the kerf and any offcut that the recipe asks for.
    """

    DOES = frozenset({Does.CUTS_FREE})
    SUMMARY = "Cut to length: short, where it will still be drawn longer."
    ALSO_CALLED = ("saw", "shear", "chop", "crop", "sever", "cut off", "hot cut")
    ACCOUNT = "`kerf` × section, and `offcut` × section or whatever is beyond the stated length"
    FIXES = True
    KEEPS_FORM = True
    DRAWN = False  # cut where the rest of the job needs it
    FREE = "length"
    GAUGE = "rule"
    AMOUNTS = {"kerf": Kind.LENGTH, "offcut": Kind.LENGTH}
    HAZARDS = ("off-cut", "struck-end")

    def hazards(self, amounts: Collection[str], *, hot: bool) -> tuple[str, ...]:
        """What is sawn off is not struck off; nothing is sawn hot, whatever kerf is reckoned with."""
        return ("saw",) if "kerf_mm" in amounts and not hot else self.HAZARDS

    def surplus_mm3(self, before: Form, volume_mm3: float, work: Work) -> float:
        """Metal beyond the stated length, the kerf, the offcut asked for and any other stated loss."""
        thinned = _thinned(before, work)
        area = thinned.end_area_mm2("finish")
        beyond = (work.amounts.get("kerf_mm", 0.0) + work.amounts.get("offcut_mm", 0.0)) * area
        beyond += stated_loss_mm3(before, volume_mm3, work)
        return volume_mm3 - self._kept(thinned, work) - beyond

    def _kept(self, thinned: Form, work: Work) -> float:
        assert work.free_mm is not None
        return thinned.with_sizes({work.free: work.free_mm}).volume_mm3()

    def work(self, before: Form, volume_mm3: float, work: Work) -> Worked:
        """Cut; the heat's scale comes off first, off the section, for no hammer works it after."""
        thinned = _thinned(before, work)
        area = thinned.end_area_mm2("finish")
        kerf = work.amounts.get("kerf_mm", 0.0) * area
        taken = {Cause.KERF: kerf} if kerf else {}
        scale = work.heats * work.face_loss_mm * self.scaling_surface_mm2(before, before, work)
        if scale:
            taken[Cause.SCALE] = scale
        stated = stated_loss_mm3(before, volume_mm3, work)
        if stated:
            taken[Cause.STATED] = stated
        left = volume_mm3 - kerf - scale - stated
        kept = left - work.amounts.get("offcut_mm", 0.0) * area
        if work.free_mm is not None:
            kept = min(left, self._kept(thinned, work))
        if left > kept:
            taken[Cause.OFFCUT] = left - kept
        return Worked(thinned.solved(work.free, kept), kept, taken)


def _thinned(before: Form, work: Work) -> Form:
    """The section that the heat leaves it, as long as it was."""
    return before.with_sizes(work.sizes_mm)
