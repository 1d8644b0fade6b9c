"""Hard steel that was lost after it was laid on: whether enough of it will be left in the end."""

from __future__ import annotations

from collections.abc import Iterator
from math import inf

from coach.bench.job_state import JobState
from coach.ledger.amendment import REMAINS
from coach.ledger.laid_steel import SteelLeft, laid_steels, left_of
from coach.ledger.verdict import SizeState
from coach.ledger.workpiece import volume_name
from coach.ledger.zone_forecast import FinishedSize
from coach.log.kinds.metal_lost import MetalLost
from coach.log.kinds.way_back import WayBackTaken
from coach.quantities import Limits, Wanted
from coach.quantities.words import NOTHING, Words, say


def too_little_left(state: JobState) -> Words:
    """What is told where too little hard steel will be left, for some was lost since it was laid on."""
    for one in steels_left(state):
        if one.is_short:
            return say(
                "About {} of hard steel will be left of the {}, and {} is to remain: take less off it where "
                "it is ground, or be content with less.",
                *(one.left, one.steel, one.remains),
            )
    return NOTHING


def steels_left(state: JobState) -> Iterator[SteelLeft]:
    """The steels of which some was lost since they were laid on, with what will be left of each."""
    changed_mm3, shortened_mm3 = _changed_mm3(state)
    if state.now is None:
        return
    drawing = state.plan.recipe.drawing
    if not changed_mm3 and not any(one.taken_back_mm for one in drawing.values()):
        return
    for steel in laid_steels(state.plan):
        gained_mm3, name = changed_mm3.get(steel.steel, 0.0), volume_name(steel.steel)
        if not (gained_mm3 or drawing[steel.steel].taken_back_mm) or name not in state.now.belief:
            continue
        there_mm3, doubt_mm3 = state.now.belief.mean(name), state.now.belief.doubt(name)
        # What went with a length of its end is reckoned by that length.
        was_mm3 = there_mm3 - gained_mm3 - shortened_mm3.get(steel.steel, 0.0)
        left = left_of(state.plan, steel, 1.0 + gained_mm3 / was_mm3, doubt_mm3 / was_mm3)
        yield SteelLeft(steel.steel, steel.zone, steel.dimension, left, steel.remains)


def steel_rows(state: JobState) -> Iterator[FinishedSize]:
    """What will be left of such a steel, held against what is to remain, as a size of the drawing."""
    for one in steels_left(state):
        least_mm = one.remains.value
        yield FinishedSize(
            name=f"{one.steel}.{REMAINS}",
            zone=one.steel,
            dimension=REMAINS,
            wanted=Wanted(Limits(least_mm, least_mm, inf, True)),
            expected=one.left,
            state=SizeState.UNDER if one.is_short else SizeState.GOOD,
            take_up=False,
        )


def _changed_mm3(state: JobState) -> tuple[dict[str, float], dict[str, float]]:
    """What each steel has more since it was welded on, mm³: below 0 where it was lost.

    First by weight, then with a length of the zone that it lies in.
    """
    welds = state.plan.recipe.welds
    by_weight, by_length = dict[str, float](), dict[str, float]()
    for entry in state.counted.values():
        body = entry.body
        if not isinstance(body, MetalLost | WayBackTaken):
            continue
        back = {one.zone for one in body.amendment.taken_back}
        for row in body.amendment.moved:
            if row.zone in welds and (body.step == 0 or body.step >= welds[row.zone].number):
                found = by_length if welds[row.zone].zones[0] in back else by_weight
                found[row.zone] = found.get(row.zone, 0.0) + row.volume_mm3
    return by_weight, by_length
