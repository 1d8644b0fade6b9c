"""Weighs cuts: what lies beyond one leaves the piece, so a zone in the middle is not cut to length."""

from __future__ import annotations

from coach.forms import listed
from coach.ledger.plan import Plan
from coach.operations import Does
from coach.quantities import Words, say
from coach.recipe.model import Step


def cuts_others_off(plan: Plan, step: Step) -> Words | None:
    """A cut at the far end of a zone that others come after; None where nothing is lost by it.

    The first zone ends away from its neighbour, where the piece begins: it is cut there. So is a branch, at
    an end of its own.
    """
    if not step.does(Does.CUTS_FREE):
        return None
    for zone in step.zones:
        row = plan.recipe.piece_of(zone).zones
        if zone not in row[1:-1]:
            continue
        beyond = row[row.index(zone) + 1 :]
        return say(
            "cutting the {} at its far end takes the {} off: cut the {}, the last zone.",
            *(zone, listed(beyond), row[-1]),
        )
    return None
