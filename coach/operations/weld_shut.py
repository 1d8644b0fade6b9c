"""Welding shut: a zone is welded to itself, as a ring, a folded eye or a folded bar is."""

from __future__ import annotations

from collections.abc import Collection

from coach.forms import Form
from coach.operations.base import Operation, Work, bare_surface_mm2
from coach.operations.does import Cause, Does, HeatKind
from coach.operations.reweld import Reweld
from coach.operations.weld import USUAL_SQUEEZE_SHARE
from coach.quantities import Kind

#: What the weld of a ring takes of its bar's length, in thicknesses of it, scarfed without upsetting
#: (judgement, between 1/3 of a thickness and 1 in the handbooks; T. F. Googerty, Hand Forging, p. 69: 3/8).
RING_WASTE = 0.4


class WeldShut(Operation):
    """One metal, one zone: faces of it that lie on each other become one.

    A ring or a link loses some of its length at its lap, anything else a share of its volume. Only the lap of
    such a ring lies in the fire, and what burns there is in its waste; of anything else the welded solid
    scales: faces laid together and fluxed do not.
    """

    DOES = frozenset({Does.CLOSES, Does.BRIGHT_WORK})
    SUMMARY = (
        "Flux the faces, bring them to a full heat together, and close the weld from its inner end outwards."
    )
    ALSO_CALLED = ("close",)
    ACCOUNT = (
        "of a ring or a link `waste`, that much of its length, and what burns at its lap is in it: 0.4 of its"
        " thickness unless said; of anything else `squeeze`: 1 % of its metal unless said"
    )
    GATHERS = True
    HEATS = 2
    HEAT_KIND = HeatKind.WELDING
    EXTRAS = {"temperature": Kind.TEMPERATURE}
    HEAT_NAMES = ("weld", "close", "mend")
    AMOUNTS = {"squeeze": Kind.SHARE, "waste": Kind.LENGTH}
    HAZARDS = ("shut-in",)
    TAKEN_DOUBT_SHARE = 0.5
    AGAIN_BY = Reweld.NAME  # its lap is in it already, and what it took is gone
    AGAIN_HEATS = 1

    def taken_mm3(self, before: Form, volume_mm3: float, work: Work) -> dict[Cause, float]:
        """What is squeezed and burnt at the lap, or out of the whole joint."""
        amounts, section = work.amounts, before.section(0.0)
        if "waste_mm" in amounts or not self.scales(type(before), amounts):
            across = [max(side) - min(side) for side in zip(*section.outline, strict=True)]
            waste_mm = amounts.get("waste_mm", RING_WASTE * min(across))  # a flat is lapped on its face
            lost = waste_mm * section.area_mm2
        else:
            lost = volume_mm3 * amounts.get("squeeze_share", USUAL_SQUEEZE_SHARE)
        return {Cause.SQUEEZE: lost} if lost else {}

    def scaling_surface_mm2(self, before: Form, after: Form, work: Work) -> float:
        """The welded solid's surface; none of a ring, whose waste holds what burns at its lap."""
        return bare_surface_mm2(after, work) if self.scales(type(before), work.amounts) else 0.0

    def scales(self, form: type[Form], amounts: Collection[str]) -> bool:
        """All but a ring or a link, of which the lap alone takes the heat."""
        return not form.CLOSED or "squeeze_share" in amounts
