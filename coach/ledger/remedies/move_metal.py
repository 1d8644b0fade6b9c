"""Move metal: a zone that is short takes from a neighbour that has it, while no shoulder is set between."""

from __future__ import annotations

from typing import ClassVar

from coach.ledger.amendment import Amendment, Moved
from coach.ledger.remedies.base import Idea, Remedy, Situation, lacking_mm3, slope_mm3_mm
from coach.quantities import mm, say

#: A boundary that is moved by eye is less sure than one that was marked (common practice, no source).
_DOUBT_SHARE = 0.15


class MoveMetal(Remedy):
    """The boundary between two zones of one bar is put somewhere else."""

    NAME: ClassVar[str] = "move metal"

    def ideas(self, situation: Situation) -> list[Idea]:
        """One idea for every short zone and each neighbour of it that has enough to give."""
        found = []
        for zone, spare in situation.short():
            zones = situation.plan.recipe.pieces[situation.plan.recipe.drawing[zone.zone].piece].zones
            at = zones.index(zone.zone)
            for other in (zones[i] for i in (at - 1, at + 1) if 0 <= i < len(zones)):
                if situation.is_begun(zone.zone) or situation.is_begun(other):
                    continue
                idea = self._from(situation, zone.zone, other, lacking_mm3(situation, zone, spare))
                if idea is not None:
                    found.append(idea)
        return found

    @staticmethod
    def _from(situation: Situation, zone: str, other: str, need_mm3: float) -> Idea | None:
        giver = situation.found.zones.get(other)
        if giver is None or not giver.spares or giver.spares[0].at_least_mm <= 0.0:
            return None
        spare = giver.spares[0]
        have_mm3 = spare.at_least_mm * slope_mm3_mm(situation, other, spare.dimension)
        amount = min(need_mm3, have_mm3)
        bar = situation.now.form(zone)
        along = amount / bar.end_area_mm2("finish")
        if along < 0.25:
            return None
        doubt = _DOUBT_SHARE * amount
        return Idea(
            about=f"{other}.{zone}",
            title=say("Move the mark between {} and {} {} into the {}", zone, other, mm(along), other),
            changes=say("The {} gains {} of bar, the {} gives it.", zone, mm(along), other),
            amendment=Amendment(moved=(Moved(zone, amount, doubt), Moved(other, -amount, doubt))),
        )
