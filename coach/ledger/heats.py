"""About how many heats a size still needs, by what the recipe planned for the whole step."""

from __future__ import annotations

from math import ceil

from coach.ledger.course import Course, Outcome


def heats_to_go(course: Course, outcome: Outcome) -> int:
    """The step's planned heats by the share of the way left; 0 for work without heats."""
    step, reading = course.step, outcome.mark.reading
    if step.heats == 0 or outcome.limits is None or outcome.surprise is None:
        return 0
    form = course.start_forms.get(reading.zone)
    sizes = form.sizes_mm() if form is not None else {}
    shape = course.now.zones[reading.zone].shape
    source = shape.worked_from(reading.dimension, outcome.limits.nominal, sizes)
    if source is None:
        return 1
    if (outcome.limits.nominal - sizes[source]) * (
        outcome.limits.nominal - outcome.surprise.cold.size_mm
    ) < 0.0:
        return 1  # run too wide: dressed back with the next heat
    whole = abs(sizes[source] - outcome.limits.nominal)
    left = abs(outcome.surprise.cold.size_mm - outcome.limits.nominal)
    if whole <= 0.0:
        return 1
    if left > whole:  # spread wider than it began: it comes down with the heats there still are
        return max(1, step.heats - course.heats)
    return max(1, min(step.heats * 2, ceil(step.heats * left / whole - 0.25)))
