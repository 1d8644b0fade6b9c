"""What kind of thing a size is."""

from __future__ import annotations

from coach.ledger.weighing import MASS, SLUG
from coach.operations import operation
from coach.quantities import Kind
from coach.recipe.model import Step


def kind_of(step: Step | None, dimension: str) -> Kind:
    """What a size is."""
    if dimension in (MASS, SLUG):
        return Kind.MASS
    return (operation(step.operation).kind_of(dimension) if step is not None else None) or Kind.LENGTH
