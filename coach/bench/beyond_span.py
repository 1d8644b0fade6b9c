"""A size that is longer than the gauge that it was read with: told once in a job."""

from __future__ import annotations

from math import isfinite
from typing import Final

from coach.bench.job_state import JobState
from coach.log.kinds.reading import Reading
from coach.operations import operation
from coach.operations.gauges import span_mm
from coach.quantities import Kind, mm
from coach.quantities.words import NOTHING, Words, say

_BEYOND: Final = (
    "{:=} is beyond what a {} of {:=} spans, and counts as surely as one: if it was read by rule or tape, "
    "strike it out and read it by that"
)


def beyond_span(state: JobState, read: Reading, entry: int) -> Words:
    """What is said of the first size of a job that its gauge does not span.

    Args:
        state: of the job, with the reading in it.
        read: what was read.
        entry: its entry's number.
    """
    if not _is_beyond(state, read):
        return NOTHING
    for number, other in state.counted.items():
        body = other.body
        if (
            number < entry
            and isinstance(body, Reading)
            and body.gauge == read.gauge
            and _is_beyond(state, body)
        ):
            return NOTHING
    return say(_BEYOND, mm(read.size), read.gauge, mm(span_mm(read.gauge)))


def _is_beyond(state: JobState, read: Reading) -> bool:
    span = span_mm(read.gauge)
    if not isfinite(span) or read.size <= span or not 0 < read.step <= len(state.plan.recipe.steps):
        return False
    step = state.plan.recipe.steps[read.step - 1]
    return operation(step.operation).kind_of(read.dimension) in (None, Kind.LENGTH)
