"""Let it give: a take-up dimension comes out smaller than drawn, where the metal is short."""

from __future__ import annotations

from collections.abc import Iterator
from math import floor

from coach.ledger.amendment import Amendment, NewLimits
from coach.ledger.remedies.base import Idea, Remedy, Situation
from coach.ledger.zone_forecast import least_of
from coach.quantities import COVERAGE, Limits, mm, say

#: A rule cannot hold finer (judgement).
_STEP_MM = 0.5


class LetGive(Remedy):
    """Each take-up dimension in its order; the drawing's least gives way by what is missing."""

    NAME = "let it give"

    def ideas(self, situation: Situation) -> Iterator[Idea]:
        """One idea for every take-up dimension of every zone whose metal may not be enough."""
        for zone, _ in situation.short():
            for spare in zone.spares:
                limits = situation.plan.recipe.drawing[spare.zone].limits[spare.dimension]
                least = least_of(limits)
                # A little beyond what just holds, and never under a quarter of the size (judgement).
                by_spare = COVERAGE * 1.02 * (spare.spare.doubt or 0.0) - spare.spare.value
                slope = situation.slope_mm3_mm(spare.zone, spare.dimension)
                sure = least - max(by_spare, zone.extra_mm3 / slope)
                low = floor(sure / _STEP_MM) * _STEP_MM
                if low <= 0.25 * limits.nominal or low >= least:
                    continue
                expected = max(low, least + spare.spare.value)
                new = Limits(min(limits.nominal, expected), low, limits.high, True)
                yield Idea(
                    about=f"{spare.zone}.{spare.dimension}",
                    title=say("Let the {} come out as small as {}", spare.label, mm(low)),
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
