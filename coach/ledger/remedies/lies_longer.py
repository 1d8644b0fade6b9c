"""More of the bar in a zone that is worked by now lies behind what is worked: it is so much longer."""

from __future__ import annotations

from math import hypot

from coach.ledger.amendment import Regained
from coach.ledger.remedies.base import Situation

_LENGTH = "length"


def lies_longer(situation: Situation, zone: str, along_mm: float) -> tuple[Regained, ...]:
    """Its length once so much more of the bar is marked off to it, where its metal shows in its section.

    Nothing where its length follows from its metal, nor before anything of it is worked.
    """
    state = situation.now.zones[zone]
    if not state.has_form or state.free == _LENGTH or _LENGTH not in state.shape.dimensions:
        return ()
    if not situation.is_begun(zone):
        return ()
    there = situation.now.size(zone, _LENGTH)
    doubt_mm = hypot(there.doubt, situation.plan.recipe.mark_doubt_mm)
    return (Regained(zone, _LENGTH, there.value + along_mm, doubt_mm, under_way=True),)
