"""Weighs what its fires take off a bar that is bent: it keeps its length, and its section thins."""

from __future__ import annotations

from collections.abc import Sequence

from coach.forms import form_kind
from coach.ledger.nominal import Stage
from coach.ledger.working import layer_of
from coach.quantities import NOTHING, Words, mm, say
from coach.recipe.model import Recipe


def thinned_by_fire(recipe: Recipe, way: Sequence[Stage], dimension: str, least_mm: float) -> Words:
    """What to do about a size across a bent bar that its fires leave under the least wanted of it.

    Nothing where the zone ends in no bent form, or where another than its fires leaves it less.
    """
    if not way or not form_kind(way[-1].after.shape.kind).BENT:
        return NOTHING
    sheds = ((stage, stage.sheds.get(dimension, 0.0)) for stage in way)
    taken_mm = sum(-shed * layer_of(recipe, stage.step, stage.step.heats) for stage, shed in sheds)
    left_mm = way[-1].form_after.size_mm(dimension)
    if not left_mm < least_mm <= left_mm + taken_mm:
        return NOTHING
    words = "Its fires take {} off that: forge it so much fuller before it is bent, or ask for less."
    return say(words, mm(taken_mm))
