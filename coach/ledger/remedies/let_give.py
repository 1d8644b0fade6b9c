"""Let it give: a take-up dimension comes out smaller than drawn, where the metal is short."""

from __future__ import annotations

from math import floor
from typing import ClassVar

from coach.forms import label
from coach.ledger.amendment import Amendment, NewLimits
from coach.ledger.remedies.base import Idea, Remedy, Situation, lacking_mm3, slope_mm3_mm
from coach.ledger.verdict import GUARD_FACTOR
from coach.ledger.zone_forecast import Spare, ZoneForecast, least_of
from coach.quantities import Limits, mm, say

_STEP_MM = 0.5  # a rule cannot hold finer


class LetGive(Remedy):
    """Each take-up dimension in its order; the drawing's least gives way by what is missing."""

    NAME: ClassVar[str] = "let it give"

    def ideas(self, situation: Situation) -> list[Idea]:
        """One idea for every take-up dimension of every zone whose metal may not be enough."""
        found = []
        for zone, _ in situation.short():
            for spare in zone.spares:
                idea = _idea(situation, zone, spare)
                if idea is not None:
                    found.append(idea)
        return found


def _idea(situation: Situation, zone: ZoneForecast, spare: Spare) -> Idea | None:
    limits = situation.plan.recipe.drawing[spare.zone].limits[spare.dimension]
    least = least_of(limits)
    by_spare = GUARD_FACTOR * 1.02 * spare.doubt_mm - spare.spare_mm
    lacking = lacking_mm3(situation, zone, spare) / slope_mm3_mm(situation, spare.zone, spare.dimension)
    sure = least - max(by_spare, lacking)
    low = floor(sure / _STEP_MM) * _STEP_MM
    if low <= 0.25 * limits.nominal or low >= least:
        return None
    expected = max(low, least + spare.spare_mm)
    new = Limits(min(limits.nominal, expected), low, limits.high, True)
    return Idea(
        about=f"{spare.zone}.{spare.dimension}",
        title=say("Let the {} come out as small as {}", label(spare.zone, spare.dimension), mm(low)),
        changes=say(
            "{} under the {} drawn, about {} expected; everything else stays.",
            mm(least - low),
            mm(least),
            mm(expected),
        ),
        amendment=Amendment(limits=(NewLimits(spare.zone, spare.dimension, new),)),
        price_mm=least - low,
        outside=True,
    )
