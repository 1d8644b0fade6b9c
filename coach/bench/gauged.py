"""What a size is read with where nobody says, and which gauges were told to be too coarse for it."""

from __future__ import annotations

from coach.bench.job_state import JobState
from coach.ledger.verdict import Verdict
from coach.operations import Does, operation
from coach.operations.gauges import FINEST, GAUGES, MADE_FOR_ONE, TEMPLATE
from coach.operations.measures import MARK
from coach.quantities import Kind
from coach.recipe.model import Recipe, Step

#: What the shop's gauges measure.
BY_GAUGES = (Kind.LENGTH, Kind.GAP, Kind.ANGLE)


def usual_gauge(recipe: Recipe, step: Step, zone: str, dimension: str) -> str:
    """The gauge that a step reads a size with.

    For what it asks that is its own; but no template is held to a length of the metal, which is asked for
    beside its bend or its angle. Another size is read no coarser than where the recipe asks for it, and by no
    eye or template, which are made for what the step asks; the bar that is marked out, by the finest.
    """
    name = f"{zone}.{dimension}"
    is_held_to = step.gauge != TEMPLATE or dimension != "length"
    if (name in step.checks and is_held_to) or dimension in operation(step.operation).EXTRAS:
        return step.gauge
    if step.does(Does.MARKS_OUT) and dimension not in (MARK, "length"):
        return FINEST
    asked = (step.gauge, *(one.gauge for one in recipe.steps if name in one.checks))
    return min(
        (gauge for gauge in asked if gauge in GAUGES and gauge not in MADE_FOR_ONE),
        key=lambda gauge: GAUGES[gauge].cold_mm,
        default=FINEST,
    )


def too_coarse_before(state: JobState, entry: int) -> set[str]:
    """The gauges that were told to be too coarse for a size before an entry."""
    return {
        one.mark.reading.gauge
        for course in state.courses()
        for one in course.outcomes
        if one.mark.entry < entry and (judged := one.judged) is not None
        if judged.too_coarse and judged.verdict is Verdict.UNSURE
    }
