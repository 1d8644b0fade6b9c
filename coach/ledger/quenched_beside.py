"""Steel that only lies in the fire of a quench: what goes into the bath is as hard as the rest."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from typing import Final

from coach.forms import listed
from coach.ledger.plan import Plan
from coach.ledger.weigh_order import takes_fire
from coach.ledger.working import LEAST_CARBON_SHARE
from coach.metals.grade import grade
from coach.operations import Does
from coach.quantities import Words, say
from coach.recipe.model import Step

#: What is done about it (common practice, no source).
_UNTEMPERED: Final = (
    "the {} is quenched with the {} and no temper reaches it: as hard as glass it cracks, and chips fly from "
    "it. Temper it too, as in temper: {}, or keep it out of the bath."
)
_IN_ITS_FIRE: Final = (
    "in its fire lies the {} too, and no temper reaches that: what goes into the bath with the rest is as "
    "hard. Does it stay out? Otherwise temper it too."
)


def never_tempered(plan: Plan, told: Collection[str] = ()) -> Iterator[tuple[Step, str, Words]]:
    """The steps that quench other zones with theirs, which no temper and no later fire reaches.

    But those that are `told` of already, as ends that are struck.
    """
    for step, hard in _left_hard(plan):
        if zones := [zone for zone in hard if zone in step.together and zone not in told]:
            every = " and ".join((*step.zones, *step.together))
            yield step, zones[0], say(_UNTEMPERED, listed(zones), step.zones[0], every)


def quenched_beside(plan: Plan) -> Iterator[tuple[Step, str, Words]]:
    """The steps with zones in the fire of a quench that no temper and no later fire reaches."""
    for step, hard in _left_hard(plan):
        if zones := [zone for zone in hard if zone not in step.together]:
            yield step, zones[0], say(_IN_ITS_FIRE, listed(zones))


def _left_hard(plan: Plan) -> Iterator[tuple[Step, list[str]]]:
    """Each quench with the zones besides its own that were in its fire and that nothing draws after it."""
    for step in plan.recipe.steps:
        if step.does(Does.QUENCHES) and {*step.heated} - {*step.zones}:
            reached = {
                zone for one in plan.recipe.steps[step.number :] if takes_fire(one) for zone in one.metal
            }
            besides = [zone for zone in step.heated if zone not in (*step.zones, *reached)]
            yield step, [zone for zone in besides if _hardens(plan, zone)]


def _hardens(plan: Plan, zone: str) -> bool:
    metals = (grade(name) for name in plan.recipe.piece_of(zone).shares)
    return any(one.carbon_share is None or one.carbon_share >= LEAST_CARBON_SHARE for one in metals)
