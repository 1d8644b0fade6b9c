"""An end that was scarfed: its lip runs out, so that a length of it holds less than the bar does."""

from __future__ import annotations

from typing import Final

from coach.ledger.plan import Plan
from coach.operations import Does, operation
from coach.recipe.model import Step

_LIP: Final = "scarf_length"
#: A scarf is so many times as long as the metal is thick where its recipe says no length (common practice, no
#: source).
_TIMES_THICK: Final = 1.5


def as_bar_mm(plan: Plan, before: Step | None, zone: str, length_mm: float, thick_mm: float) -> float:
    """So much bar as a length off the end of a zone holds, whose lip runs out to nothing.

    `before` is the step in hand, None where all are done. By similar triangles: half of the lip's length, and
    of a part of it as the square of its share.
    """
    lip_mm = 0.0
    for step in plan.recipe.steps[: before.number - 1] if before is not None else plan.recipe.steps:
        if zone in step.zones and _LIP in operation(step.operation).EXTRAS:
            wanted = step.targets.get(_LIP)
            lip_mm = wanted.nominal if wanted is not None else _TIMES_THICK * thick_mm
        elif zone in step.worked and (step.does(Does.CLOSES) or step.does(Does.JOINS)):
            lip_mm = 0.0
    if lip_mm <= 0.0:
        return length_mm
    return length_mm * length_mm / (2.0 * lip_mm) if length_mm < lip_mm else length_mm - 0.5 * lip_mm
