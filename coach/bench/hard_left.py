"""Hard steel that was lost after it was laid on: whether enough of it will be left in the end."""

from __future__ import annotations

from coach.bench.replay import JobState
from coach.ledger.laid_steel import laid_steels, left_of
from coach.ledger.workpiece import volume_name
from coach.log.kinds.metal_lost import MetalLost
from coach.quantities.words import NOTHING, Words, say

#: It is told to a tenth of a millimetre: what lacks less is enough (our choice).
_SHOWN_PLACES = 1


def too_little_left(state: JobState) -> Words:
    """What is told where too little hard steel will be left, for some was lost since it was laid on."""
    lost_mm3 = _lost_mm3(state)
    if not lost_mm3 or state.now is None:
        return NOTHING
    for steel in laid_steels(state.plan):
        gone_mm3, name = lost_mm3.get(steel.steel, 0.0), volume_name(steel.steel)
        if not gone_mm3 or name not in state.now.belief:
            continue
        there_mm3 = state.now.belief.mean(name)
        left = left_of(state.plan, steel, there_mm3 / (there_mm3 + gone_mm3))
        if round(left.value, _SHOWN_PLACES) < steel.remains.value:
            return say(
                "About {} of hard steel will be left of the {}, and {} is to remain: take less off it where "
                "it is ground, or be content with less.",
                *(left, steel.steel, steel.remains),
            )
    return NOTHING


def _lost_mm3(state: JobState) -> dict[str, float]:
    """What was lost of each steel by weight since the step that welds it on was in hand, mm³."""
    welds, found = state.plan.recipe.welds, dict[str, float]()
    for entry in state.counted.values():
        body = entry.body
        if not isinstance(body, MetalLost) or body.zone not in welds:
            continue
        if body.step == 0 or body.step >= welds[body.zone].number:
            gone_mm3 = -sum(row.volume_mm3 for row in body.amendment.moved if row.zone == body.zone)
            found[body.zone] = found.get(body.zone, 0.0) + gone_mm3
    return found
