"""In how many heats a bar is driven up: in each no more of it than stands without bending."""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil
from typing import Final

from coach.fire.upsetting import FREE_LENGTHS
from coach.ledger.nominal import Stage
from coach.ledger.plan import Plan
from coach.operations import Does, operation
from coach.recipe.model import Step

#: What a bar of any section is across, the thinner first.
ACROSS: Final = ("thickness", "side", "diameter", "across_flats", "width")
#: As much more than so many whole heats is one more (our choice).
_SAME_SHARE: Final = 0.005


def driven_up(plan: Plan, step: Step) -> Iterator[Stage]:
    """What a step drives up along its bar."""
    if step.heats and operation(step.operation).GATHERS and step.does(Does.HAMMERS_A_SECTION):
        yield from (one for zone, one in plan.by_step[step.number].items() if zone in step.zones)


def heats_to_upset(stage: Stage) -> int:
    """In how many heats the free length of an upset is driven up, each at most as long as stands.

    Source: Forging Industry Association, undated, `coach.fire.upsetting` (confirmed).
    """
    sizes = stage.form_before.sizes_mm()
    thick_mm = min((sizes[name] for name in ACROSS if name in sizes), default=0.0)
    return ceil(sizes.get("length", 0.0) / (FREE_LENGTHS * thick_mm) - _SAME_SHARE) if thick_mm else 0
