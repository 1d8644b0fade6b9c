"""How many heats a recipe is planned with, as its plan tells them: those that it leaves out are reckoned."""

from __future__ import annotations

from contextlib import suppress

from coach.recipe.model import Recipe


def heats_planned(recipe: Recipe) -> int:
    """All heats of a recipe; where its metal cannot be reckoned, those it says, or the usual ones."""
    if not all(step.heats_said for step in recipe.steps):
        from coach.ledger.looking_back import look_back
        from coach.ledger.working import LedgerError

        with suppress(LedgerError):  # what is wrong with it is told where it is opened
            recipe = look_back(recipe).recipe
    return sum(step.heats for step in recipe.steps)
