"""What is to be marked out of each zone beyond its plan, so that its metal is enough with a chance."""

from __future__ import annotations

from math import ceil, floor, inf, isinf
from typing import Final

from coach.ledger.forecast import forecast
from coach.ledger.looking_back import look_back
from coach.ledger.plan import Plan
from coach.ledger.workpiece import at_stock
from coach.quantities.normal import quantile
from coach.recipe.model import Recipe

#: Allowances are written in steps of half a per cent (our choice).
_STEP: Final = 0.005
#: Of the way to the upper limit of the size that takes spare metal up, what an allowance may use (judgement).
_OF_LIMITS: Final = 0.8
#: An allowance changes the doubt a little: it is settled in two or three rounds (computed; our choice).
_ROUNDS: Final = 6


def allowances_for(recipe: Recipe, chance: float) -> dict[str, float]:
    """The allowance of every zone that has not enough of one, as shares of their volumes.

    None puts the size that takes it up beside its drawing: where limits are narrower than the doubt, the
    chance stays below. No allowance is made smaller: what the recipe says by itself may be for more than
    the doubt. Raises LedgerError, as `look_back` does.
    """
    sure = quantile(chance)
    found: dict[str, float] = {}
    for _ in range(_ROUNDS):
        plan = look_back(recipe)
        ends = forecast(plan, None, at_stock(plan), 1).zones
        more: dict[str, float] = {}
        for zone, end in ends.items():
            if (
                missing := end.lacking_mm3(sure)
            ) > 0.0:  # a branch has more where what it is split from has more
                root = recipe.piece_of(zone).root_of(zone)
                more[root] = max(missing / plan.start_mm3[zone], more.get(root, 0.0))
        if not more:
            break
        for zone, share in more.items():
            had = recipe.drawing[zone].allowance_share
            allowance = min(ceil((had + share) / _STEP - 1e-9) * _STEP, _most(plan, zone))
            if allowance > had:
                found[zone] = allowance
        drawing = {
            zone: drawn._replace(allowance_share=found.get(zone, drawn.allowance_share))
            for zone, drawn in recipe.drawing.items()
        }
        recipe = recipe._replace(drawing=drawing)
    return found


def _most(plan: Plan, zone: str) -> float:
    """What share of a zone may be marked out besides, and the size that takes it up is in its limits.

    Of what is split every branch gets its share of that.
    """
    leaves = plan.recipe.piece_of(zone).leaves_of(zone)
    return _most_of(plan, zone) if leaves == (zone,) else max(0.0, min(_most_of(plan, one) for one in leaves))


def _most_of(plan: Plan, zone: str) -> float:
    drawn = plan.recipe.drawing[zone]
    sizes = drawn.sizes_mm
    takes = drawn.take_up[0] if drawn.take_up else None
    if takes is None or isinf(drawn.limits[takes].high):
        return inf
    nominal_mm3 = drawn.shape.form(sizes).volume_mm3()
    most_mm3 = drawn.shape.form({**sizes, takes: drawn.limits[takes].high}).volume_mm3()
    had = 0.0
    piece = plan.recipe.piece_of(zone)
    if zone not in piece.zones:  # what its share of the split gives it beyond its own need counts as well
        had = plan.recipe.drawing[piece.root_of(zone)].allowance_share
        nominal_mm3 *= plan.stages[zone][-1].after_mm3 / plan.wanted_mm3[zone] / (1.0 + had)
    share = (most_mm3 / nominal_mm3 - 1.0) * plan.wanted_mm3[zone] / plan.start_mm3[zone]
    return floor(_OF_LIMITS * share / _STEP) * _STEP
