"""A size that is read elsewhere: of an earlier step, as the angle of a bend is, or of the whole piece."""

from __future__ import annotations

from coach.forms import said
from coach.operations import operation
from coach.operations.measures import MARK, MASS
from coach.recipe.model import Recipe, Step


def read_there(recipe: Recipe, here: Step, zone: str, dimension: str) -> str:
    """Where such a size of a zone, apart from its form, is read; "" where no step before this one has it."""
    if dimension == MASS:
        return f"A piece is weighed whole: type {recipe.piece_of(zone).name}.mass."
    before = (
        reversed(recipe.steps[: here.number - 1]) if dimension != MARK else ()
    )  # forged, a bar has no marks
    has = (one for one in before if zone in one.zones and dimension in operation(one.operation).EXTRAS)
    if (of := next(has, None)) is None:
        return ""
    return (
        f"The {said(dimension)} of the {zone} is of step {of.number}, {of.title}: read it of that one, by "
        f"command with --step {of.number}, at the bench with P in the log."
    )
