"""What was tested before work that can undo it: a crack that a quench opened, a ring before a weld."""

from __future__ import annotations

from coach.ledger.fire_after_temper import zones_of_piece
from coach.operations import Does
from coach.operations.shop_tests import SHOP_TESTS
from coach.recipe.model import Recipe, Step

#: What can crack a piece that was sound, or leave a joint open in it (common practice, no source).
_MAY_SPOIL = frozenset({Does.QUENCHES, Does.JOINS, Does.CLOSES})


def undone_since(recipe: Recipe, done: int, made_at: int, zone: str, test: str) -> int:
    """The number of the first step of `done` since a test was made that makes it old; 0 for none."""
    undoing = (
        step.number
        for step in recipe.steps[made_at:done]
        if any(step.does(one) for one in _undoes(test)) and zone in _reached(recipe, step, test)
    )
    return next(undoing, 0)


def _undoes(test: str) -> frozenset[Does]:
    told = SHOP_TESTS[test]
    if told.as_it_heats:
        return frozenset()
    of_soundness = told.spoils and (told.of_piece or not told.mended_by)
    return frozenset(told.mended_by) | (_MAY_SPOIL if of_soundness else frozenset())


def _reached(recipe: Recipe, step: Step, test: str) -> frozenset[str]:
    """The zones that such a step tells otherwise of; of a whole piece, and what is one with it, all."""
    if SHOP_TESTS[test].of_piece:
        return frozenset(zones_of_piece(recipe, step, recipe.steps[: step.number]))
    return step.metal
