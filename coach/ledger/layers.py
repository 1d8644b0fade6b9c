"""How many layers lie on each other in a zone that began as a stack, counted through its folds."""

from __future__ import annotations

from collections.abc import Sequence
from math import prod

from coach.ledger.nominal import Stage
from coach.operations import operation
from coach.recipe.model import Recipe


def layers_of(recipe: Recipe, zone: str, way: Sequence[Stage]) -> int:
    """The layers of a zone after these stages of its; 0 where it is no stack's."""
    layers = recipe.piece_of(zone).layers
    return len(layers) * prod(times_of(stage) for stage in way) if layers else 0


def times_of(stage: Stage) -> int:
    """How many times as many layers a stage leaves."""
    if stage.zone not in stage.step.zones:
        return 1
    return operation(stage.step.operation).layers_times(stage.form_before, stage.form_after)
