"""What a size is read with where nobody says."""

from __future__ import annotations

from coach.operations import Does, operation
from coach.operations.gauges import FINEST, GAUGES, MADE_FOR_ONE
from coach.operations.measures import MARK
from coach.quantities import Kind
from coach.recipe.model import Recipe, Step

#: What the shop's gauges measure.
BY_GAUGES = (Kind.LENGTH, Kind.GAP, Kind.ANGLE)


def usual_gauge(recipe: Recipe, step: Step, zone: str, dimension: str) -> str:
    """The gauge that a step reads a size with.

    For what it asks that is its own. Another size is read no coarser than where the recipe asks for it,
    and by no eye or template, which are made for what the step asks; the bar that is marked out, by the
    finest.
    """
    name = f"{zone}.{dimension}"
    if name in step.checks or dimension in operation(step.operation).EXTRAS:
        return step.gauge
    if step.does(Does.MARKS_OUT) and dimension not in (MARK, "length"):
        return FINEST
    asked = (step.gauge, *(one.gauge for one in recipe.steps if name in one.checks))
    return min(
        (gauge for gauge in asked if gauge in GAUGES and gauge not in MADE_FOR_ONE),
        key=lambda gauge: GAUGES[gauge].cold_mm,
        default=FINEST,
    )
