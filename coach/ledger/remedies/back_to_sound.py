"""Back to sound steel: an end too thin for the stone to take its skin off is shortened till it is thicker."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from coach.ledger.remedies.base import Idea, Remedy, Situation
from coach.ledger.remedies.grind_more import GrindMore
from coach.ledger.remedies.take_back import back_by, back_idea

#: And so much more than it needs, for it is told and measured no finer than half of that, mm (judgement).
_MORE_MM: Final = 0.2


class BackToSound(Remedy):
    """Where no hammer leaves more for the stone any more, the end goes back to where there is more."""

    NAME = "back to sound"
    HELPS = False  # the skin is no part of the metal account

    def ideas(self, situation: Situation) -> Iterator[Idea]:
        """One idea for every end whose skin goes deeper than the stone does, and that is long enough."""
        ground_more = {idea.about for idea in GrindMore().ideas(situation)}
        drawing = situation.plan.recipe.drawing
        for skin in situation.short_skins:
            off = skin.grinding
            found = situation.found.zones.get(skin.zone)
            if off is None or found is None or f"{skin.zone} {off.dimension}" in ground_more:
                continue
            size = next((one for one in found.sizes if one.dimension == off.dimension), None)
            now = situation.now
            if size is None or not now.zones[skin.zone].has_form:
                continue
            there_mm = now.form(skin.zone).sizes_mm().get(off.dimension, 0.0)
            aim_mm = there_mm - off.beyond_mm + _MORE_MM
            back = back_by(now, skin.zone, off.dimension, aim_mm)
            limits = drawing[skin.zone].limits.get("length")
            if back is None or (limits is not None and back[1]["length"] < limits.low):
                continue
            yield back_idea(situation, size, aim_mm, *back)
