"""What is to be marked out of each zone beyond its plan, so that its metal is enough with a chance."""

from __future__ import annotations

from math import ceil
from statistics import NormalDist
from typing import Final

from coach.ledger.forecast import forecast
from coach.ledger.looking_back import look_back
from coach.ledger.workpiece import at_stock
from coach.recipe.model import Recipe

#: Allowances are written in steps of half a per cent (our choice).
_STEP: Final = 0.005
#: An allowance changes the doubt a little: it is settled in two or three rounds (computed; our choice).
_ROUNDS: Final = 6


def allowances_for(recipe: Recipe, chance: float) -> dict[str, float]:
    """The allowance of every zone that has not enough of one, as shares of their volumes.

    No allowance is made smaller: what the recipe says by itself may be for more than the doubt.
    Raises LedgerError, as `look_back` does.
    """
    sure = NormalDist().inv_cdf(chance)
    found: dict[str, float] = {}
    for _ in range(_ROUNDS):
        plan = look_back(recipe)
        ends = forecast(plan, None, at_stock(plan), 1).zones
        short = {
            zone: sure * end.volume.doubt - (end.volume.value - end.least_mm3) for zone, end in ends.items()
        }
        more = {zone: missing / plan.start_mm3[zone] for zone, missing in short.items() if missing > 0.0}
        if not more:
            break
        for zone, share in more.items():
            allowance = recipe.drawing[zone].allowance_share + share
            found[zone] = ceil(allowance / _STEP - 1e-9) * _STEP
        drawing = {
            zone: drawn._replace(allowance_share=found.get(zone, drawn.allowance_share))
            for zone, drawn in recipe.drawing.items()
        }
        recipe = recipe._replace(drawing=drawing)
    return found
