"""Weighs laid steel: whether as much of it is left as is to remain, and what thickness leaves it."""

from __future__ import annotations

from coach.ledger.laid_steel import SteelToLay
from coach.ledger.plan import Plan
from coach.quantities import Words, mm, say


def too_little_steel(plan: Plan, steel: SteelToLay) -> Words | None:
    """What to say of steel of which too little is left in the end; None where it is enough."""
    taken_back_mm = plan.recipe.drawing[steel.steel].taken_back_mm
    if steel.left.value < steel.remains.value and taken_back_mm > 0.0:
        return say(
            "With {} taken back, about {} of hard steel is left in {}, and {} is wanted.",
            *(mm(taken_back_mm), steel.left, steel.zone, steel.remains),
        )
    if steel.enough:
        return None
    weld = plan.recipe.welds[steel.steel].number
    if steel.pressed_to is not None:
        return say(
            "Step {} lays the {} on and presses both to {}: no {} of it leaves {} of steel there. Leave the "
            "joined section thicker, or take a thinner bar under it.",
            *(weld, steel.steel, steel.pressed_to, steel.dimension, steel.remains),
        )
    return say(
        "Step {} lays the {} on with a {} of {}; to leave {} of steel it must be {}.",
        *(weld, steel.steel, steel.dimension, steel.drawn, steel.remains, steel.needed),
    )
