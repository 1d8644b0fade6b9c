"""What the coach says, in the shop's words: one sentence for each thing that can happen."""

from __future__ import annotations

from coach.ledger.weighing import MASS, SLUG
from coach.operations import operation
from coach.operations.measures import KINDS
from coach.quantities import (
    Shown,
    write_as_read,
)
from coach.recipe.model import Step


def kind_of(step: Step | None, dimension: str) -> str:
    """What a size is: one of `coach.operations.measures`."""
    if dimension in (MASS, SLUG):
        return "mass"
    return (operation(step.operation).kind_of(dimension) if step is not None else None) or "length"


def size_text(size: float, kind: str, shown: Shown) -> str:
    """A size with its unit."""
    return KINDS[kind].write(size, shown)


def read_text(size: float, kind: str, shown: Shown) -> str:
    """A size as the gauge gave it, with its unit: not coarser than it was typed."""
    if kind == "angle":
        return f"{round(size, 1):g}°"
    finer = kind == "length" or (kind == "gap" and shown.system == "mm")
    return write_as_read(size, shown) if finer else size_text(size, kind, shown)
