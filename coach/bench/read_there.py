"""A size that only an earlier step has: the angle of a bend, the gap of a fit. It is read of that step."""

from __future__ import annotations

from collections.abc import Sequence

from coach.forms import said
from coach.operations import operation
from coach.operations.measures import MARK
from coach.recipe.model import Step


def read_there(steps: Sequence[Step], here: Step, zone: str, dimension: str) -> str:
    """Where such a size of a zone, apart from its form, is read; "" where no step before this one has it."""
    before = reversed(steps[: here.number - 1]) if dimension != MARK else ()  # forged, a bar has no marks
    has = (one for one in before if zone in one.zones and dimension in operation(one.operation).EXTRAS)
    if (of := next(has, None)) is None:
        return ""
    return (
        f"The {said(dimension)} of the {zone} is of step {of.number}, {of.title}: read it of that one, by "
        f"command with --step {of.number}, at the bench with P in the log."
    )
