"""The metal that a step's blows push over a shoulder, from a zone into its neighbour or back."""

from __future__ import annotations

from coach.ledger.belief import Belief
from coach.ledger.plan import Plan
from coach.ledger.working import reshapes
from coach.ledger.workpiece import Workpiece, volume_name
from coach.operations import operation
from coach.recipe.model import Recipe, Step
from coach.recipe.one_bar import next_to

#: How much of the smaller of two neighbours goes over their shoulder at a step that hammers one of them, as a
#: share, either way (judgement; a mark hammered off its place by 0.2 mm of 50).
WANDER_SHARE = 0.004


def wandered(plan: Plan, workpiece: Workpiece, step: Step) -> Workpiece:
    """What is believed of the metal once a step's blows fell: what one zone has more its neighbour has less.

    Nothing of the piece is gained or lost by it, and on the whole it is as likely to go one way as the other.
    """
    if not is_hammered(step):
        return workpiece
    belief = workpiece.belief
    for zone in step.zones:
        if zone in workpiece.zones and reshapes(step, zone):
            belief = _over_shoulders(plan, workpiece._replace(belief=belief), zone)
    return workpiece._replace(belief=belief)


def is_hammered(step: Step) -> bool:
    """Whether a step's work is hot and moves metal."""
    return bool(step.heats) and not operation(step.operation).FIXES


def neighbours(recipe: Recipe, zone: str) -> tuple[str, ...]:
    """The zones on either side of one in the row of its piece; none of one that was split off."""
    return next_to(recipe.piece_of(zone).zones, zone)


def _over_shoulders(plan: Plan, workpiece: Workpiece, zone: str) -> Belief:
    belief, mine = workpiece.belief, volume_name(zone)
    if not _stands(workpiece, zone):
        return belief
    for other in neighbours(plan.recipe, zone):
        if not _stands(workpiece, other):
            continue
        theirs = volume_name(other)
        share_mm3 = WANDER_SHARE * min(belief.mean(mine), belief.mean(theirs))
        belief = belief.exchanged(mine, theirs, share_mm3**2)
    return belief


def _stands(workpiece: Workpiece, zone: str) -> bool:
    """Whether a zone lies in the row of its piece as a solid of its own."""
    state = workpiece.zones.get(zone)
    return state is not None and state.has_form and volume_name(zone) in workpiece.belief
