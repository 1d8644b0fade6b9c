"""Let it give: a take-up dimension comes out smaller than drawn, where the metal is short."""

from __future__ import annotations

from collections.abc import Iterator
from math import floor

from coach.ledger.amended import amended_plan
from coach.ledger.amendment import Amendment, NewAllowance, NewLimits
from coach.ledger.plan import Plan
from coach.ledger.remedies.base import Idea, Remedy, Situation
from coach.ledger.steel_at_end import shortened_steels
from coach.ledger.working import LedgerError
from coach.ledger.zone_forecast import least_of
from coach.operations import Does
from coach.quantities import NOTHING, Limits, Words, mm, say

#: A rule cannot hold finer (judgement).
_STEP_MM = 0.5

#: Steel that is as long and as wide as the end it lies on, within this share, covers that (judgement).
_AS_BIG_SHARE = 0.25
_LIES = ("width", "length")
_SECTION = ("side", "diameter", "width", "thickness")


class LetGive(Remedy):
    """Each take-up dimension in its order; the drawing's least gives way by what is missing."""

    NAME = "let it give"

    def ideas(self, situation: Situation) -> Iterator[Idea]:
        """One idea for every take-up dimension of every zone whose metal may not be enough."""
        for zone, _ in situation.short():
            for spare in zone.spares:
                if _covers_an_end(situation.plan, spare.zone, spare.dimension):
                    continue  # what it does not cover of a struck face would be without steel
                limits = situation.plan.recipe.drawing[spare.zone].limits[spare.dimension]
                least = least_of(limits)
                # A little beyond what just holds, and never under a quarter of the size (judgement).
                by_spare = situation.surety(zone) * 1.02 * (spare.spare.doubt or 0.0) - spare.spare.value
                slope = situation.slope_mm3_mm(spare.zone, spare.dimension)
                sure = least - max(by_spare, situation.extra_mm3(zone) / slope)
                low = floor(sure / _STEP_MM) * _STEP_MM
                if low <= 0.25 * limits.nominal or low >= least:
                    continue
                expected = max(low, least + spare.spare.value)
                new = Limits(min(limits.nominal, expected), low, limits.high, True)
                yield Idea(
                    about=f"{spare.zone}.{spare.dimension}",
                    title=say("Let the {} come out as small as {}", spare.label, mm(low)),
                    changes=say(
                        "{:hair} under the {} drawn, about {} expected; everything else stays.",
                        mm(least - low),
                        mm(least),
                        mm(expected),
                    ),
                    amendment=_amendment(situation, NewLimits(spare.zone, spare.dimension, new)),
                    price_mm=least - low,
                    gives=say("{:hair} under", mm(least - low)),
                    caution=_steel_gone(situation, spare.zone),
                    outside=True,
                )


def _steel_gone(situation: Situation, zone: str) -> Words:
    """What is told where steel went with the end of a zone: nothing brings that back."""
    steels = shortened_steels(situation.plan, situation.now, zone)
    if not steels:
        return NOTHING
    return say(
        "of the {} there is less as well, and nothing brings that back: it wears out sooner", steels[0]
    )


def _covers_an_end(plan: Plan, steel: str, dimension: str) -> bool:
    """Whether it is a size of steel laid on the end of a zone, as a struck face is: as big as its section."""
    weld = plan.recipe.welds.get(steel)
    if weld is None or "inset_mm" in weld.amounts or dimension not in ("length", "width"):
        return False
    stage = plan.by_step[weld.number].get(weld.zones[0])
    limits = plan.recipe.drawing[steel].limits
    if stage is None:
        return False
    sizes = stage.form_after.sizes_mm()
    lies = sorted(limits[name].nominal for name in _LIES if name in limits)
    section = sorted(sizes[name] for name in _SECTION if name in sizes)
    return bool(lies and section) and all(
        abs(one / other - 1.0) <= _AS_BIG_SHARE
        for one, other in ((lies[0], section[0]), (lies[-1], section[-1]))
    )


def _amendment(situation: Situation, new: NewLimits) -> Amendment:
    """While the bar is being marked out, what the zone does not need is its neighbour's, as it is marked.

    Of the two that is the one that has more than planned; so no other mark is wanted elsewhere.
    """
    smaller = Amendment(limits=(new,))
    if situation.course is None or not situation.course.step.does(Does.MARKS_OUT):
        return smaller
    plan = situation.plan
    zones = plan.recipe.piece_of(new.zone).zones
    if new.zone not in zones:  # a branch, which has no mark of its own
        return smaller
    at = zones.index(new.zone)
    beside = (zones[one] for one in (at - 1, at + 1) if 0 <= one < len(zones))
    has_more = {zone: situation.now.volume_mm3(zone) - plan.start_mm3[zone] for zone in beside}
    if not has_more:
        return smaller
    other = max(has_more, key=has_more.__getitem__)
    try:
        freed = plan.start_mm3[new.zone] - amended_plan(plan, smaller).start_mm3[new.zone]
    except LedgerError:  # so small it cannot be made, and is not offered
        return smaller
    share = (1.0 + plan.recipe.drawing[other].allowance_share) * (1.0 + freed / plan.start_mm3[other]) - 1.0
    return smaller._replace(allowances=(NewAllowance(other, share),))
