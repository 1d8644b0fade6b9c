"""How many layers lie on each other in a zone that began as a stack, counted through its folds."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import prod

from coach.ledger.nominal import Stage
from coach.operations import operation
from coach.recipe.model import Recipe


def layers_of(
    recipe: Recipe, zone: str, stages: Mapping[str, Sequence[Stage]], number: int | None = None
) -> int:
    """The layers of a zone in the end, or after the step of that number; 0 where it is no stack's."""
    piece = recipe.piece_of(zone)
    if not piece.layers:
        return 0
    source = recipe.pieces[piece.source].zones[0] if piece.source else None
    begins = len(piece.layers) if source is None else layers_of(recipe, source, stages)
    if (whole := piece.split_from(zone)) is not None:
        begins = layers_of(recipe, whole, stages, number)
    way = (stage for stage in stages[zone] if number is None or stage.step.number <= number)
    return begins * prod(map(times_of, way))


def times_of(stage: Stage) -> int:
    """How many times as many layers a stage leaves."""
    if stage.zone not in stage.step.zones:
        return 1
    return operation(stage.step.operation).layers_times(stage.form_before, stage.form_after)
