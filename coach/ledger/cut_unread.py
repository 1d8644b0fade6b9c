"""A length that a cut left and that nobody has read: where it is read later, it lies where the smith cut."""

from __future__ import annotations

from coach.ledger.nominal import Stage
from coach.ledger.plan import Plan
from coach.ledger.possible import takes_off
from coach.ledger.reading import Reading
from coach.ledger.working import reshapes
from coach.ledger.workpiece import Workpiece
from coach.operations import Does
from coach.recipe.model import Step


def cut_unread(plan: Plan, now: Workpiece, step: Step, reading: Reading) -> Stage | None:
    """The cut of an earlier step that left a length as it is; None where it was read or worked since."""
    if now.zones[reading.zone].measured:
        return None
    behind = [one for one in plan.stages.get(reading.zone, ()) if one.step.number <= step.number]
    shaping = [one for one in behind if reshapes(one.step, reading.zone) or takes_off(one, reading.dimension)]
    last = shaping[-1] if shaping else None
    if last is None or last.step.number == step.number or not last.step.does(Does.CUTS_FREE):
        return None
    return last if takes_off(last, reading.dimension) else None
