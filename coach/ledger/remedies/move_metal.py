"""Move metal: a zone that is short takes from a neighbour that has it, while no shoulder is set between."""

from __future__ import annotations

from collections.abc import Iterator

from coach.ledger.amendment import Amendment, Moved
from coach.ledger.remedies.base import Idea, Remedy, Situation
from coach.quantities import mm, say

#: A boundary that is moved by eye is less sure than one that was marked (common practice, no source).
_DOUBT_SHARE = 0.15


class MoveMetal(Remedy):
    """The boundary between two zones of one bar is put somewhere else."""

    NAME = "move metal"

    def ideas(self, situation: Situation) -> Iterator[Idea]:
        """One idea for every short zone and each neighbour of it that has enough to give."""
        recipe = situation.plan.recipe
        for short, lacking in situation.short():
            zone = short.zone
            zones = recipe.pieces[recipe.drawing[zone].piece].zones
            at = zones.index(zone)
            for other in (zones[i] for i in (at - 1, at + 1) if 0 <= i < len(zones)):
                giver = situation.found.zones.get(other)
                if situation.has_shoulder(zone) or situation.has_shoulder(other):
                    continue
                if giver is None or not giver.spares:
                    continue
                spare = giver.spares[0]
                amount = min(lacking, spare.at_least_mm * situation.slope_mm3_mm(other, spare.dimension))
                along = amount / situation.now.form(zone).end_area_mm2("finish")
                if along < 0.25:
                    continue
                doubt = _DOUBT_SHARE * amount
                yield Idea(
                    about=f"{other}.{zone}",
                    title=say(
                        "Move the mark between {} and {} {} into the {}", zone, other, mm(along), other
                    ),
                    changes=say("The {} gains {} of bar, the {} gives it.", zone, mm(along), other),
                    amendment=Amendment(moved=(Moved(zone, amount, doubt), Moved(other, -amount, doubt))),
                )
