"""Weighs work that is to be done in the heat before it: whether there is one, and it is still hot."""

from __future__ import annotations

from coach.ledger.plan import Plan
from coach.operations import Does, operation
from coach.operations.does import HeatKind
from coach.quantities import Words, as_words, counted, say
from coach.recipe.model import Step


def no_heat_left(plan: Plan, step: Step) -> Words | None:
    """What is to be done in the same heat, and no heat is left; None where one is, or it takes its own.

    The step before it had its piece in the fire, or works in the same heat itself; and it leaves it hot: what
    is normalised, annealed or quenched is cold when it is done.
    """
    if step.heats or step.heat_kind is HeatKind.COLD or not operation(step.operation).HEATS:
        return None
    if (why := _why_none(plan, step)) is None:
        return None
    heats = counted(operation(step.operation).HEATS, "heat")
    return say("it is to be done in the same heat, and {}. Write {} in its place.", why, heats)


def _why_none(plan: Plan, step: Step) -> Words | None:
    if step.number == 1:
        return as_words("no step before it takes one")
    before = plan.recipe.steps[step.number - 2]
    if not before.heats and before.heat_kind is not HeatKind.COLD:
        return None  # it has the same, and is told of where there is none
    pieces = {plan.recipe.piece_of(zone).name for zone in step.zones}
    lies = pieces & {plan.recipe.piece_of(zone).name for zone in (*before.zones, *before.heated)}
    if before.heat_kind is HeatKind.COLD or not lies:
        return say("step {}, {}, before it has it in no fire", before.number, before.title)
    if before.does(Does.NORMALISES) or before.does(Does.QUENCHES) or _is_buried(before):
        return say("step {}, {}, before it leaves it cold", before.number, before.title)
    return None


def _is_buried(step: Step) -> bool:
    return operation(step.operation).COOLS_BURIED
