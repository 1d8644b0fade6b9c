"""Mark it longer: a zone that is not forged yet takes more of the bar."""

from __future__ import annotations

from typing import ClassVar

from coach.ledger.amendment import Amendment, Moved, NewAllowance
from coach.ledger.remedies.base import Idea, Remedy, Situation, lacking_mm3
from coach.quantities import mm, say


class MarkLonger(Remedy):
    """The cheapest metal there is: what is still in the bar."""

    NAME: ClassVar[str] = "mark longer"

    def ideas(self, situation: Situation) -> list[Idea]:
        """One idea for every short zone while nothing from it to the bar's end is forged or cut."""
        found = []
        for zone, spare in situation.short():
            recipe = situation.plan.recipe
            piece = recipe.pieces[recipe.drawing[zone.zone].piece]
            at = piece.zones.index(zone.zone)
            if any(situation.is_begun(other) for other in piece.zones[at:]):
                continue
            # What the metal lacks, or what a mark set short of the plan's lacks of that, whichever is more.
            planned, marked = situation.plan.start_mm3[zone.zone], situation.now.volume_mm3(zone.zone)
            more = max(1.05 * lacking_mm3(situation, zone, spare), planned - marked)
            along = more / situation.now.form(zone.zone).end_area_mm2("finish")
            if along < 0.25 or along > situation.bar_left_mm(piece.name):
                continue
            others = ", and every mark after it moves along" if at + 1 < len(piece.zones) else ""
            found.append(
                Idea(
                    about=zone.zone,
                    title=say("Mark the {} {} longer on the bar", zone.zone, mm(along)),
                    changes=say("It takes that much more of the {}{}.", piece.metal, others),
                    amendment=Amendment(
                        moved=(Moved(zone.zone, more, 0.0),),
                        allowances=(NewAllowance(zone.zone, _share(situation, zone.zone, marked + more)),),
                    ),
                )
            )
        return found


def _share(situation: Situation, zone: str, marked_mm3: float) -> float:
    """The zone's allowance once so much metal is marked out for it."""
    plan = situation.plan
    share = plan.recipe.drawing[zone].allowance_share
    return (1.0 + share) * marked_mm3 / plan.start_mm3[zone] - 1.0
