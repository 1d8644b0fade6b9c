"""Weighs cuts: what lies beyond one leaves the piece, so a zone in the middle is not cut to length."""

from __future__ import annotations

from typing import Final

from coach.forms import listed
from coach.forms.disc import Disc
from coach.ledger.nominal import Stage
from coach.ledger.plan import Plan
from coach.operations import Does
from coach.quantities import Words, mm, say
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


#: A circle may stand out beyond its plate by this share before it is told: rounding (judgement).
_BEYOND_SHARE: Final = 0.02


def circle_too_wide(stage: Stage) -> Words | None:
    """A circle that does not lie on the plate that it is cut from; None where it does."""
    disc, plate = stage.form_after, stage.form_before.sizes_mm()
    if (
        not isinstance(disc, Disc)
        or isinstance(stage.form_before, Disc)
        or stage.zone not in stage.step.zones
    ):
        return None
    sides = [plate[name] for name in ("width", "end_width", "side", "length") if name in plate]
    if not sides or disc.diameter_mm <= min(sides) * (1.0 + _BEYOND_SHARE):
        return None
    return say(
        "a round of {} does not lie on a plate of which {} is only {} across: spread it wider first, or cut "
        "a smaller round.",
        *(mm(disc.diameter_mm), stage.zone, mm(min(sides))),
    )
