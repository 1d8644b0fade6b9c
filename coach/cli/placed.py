"""What the metal account refuses of a recipe, told like a fault of its file: with line and column."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from coach.ledger.working import LedgerError
    from coach.recipe.faults import RecipeFaults


def faults_of(error: LedgerError, text: str, source: str) -> RecipeFaults:
    """The refusal of a recipe whose text can be read and whose metal cannot do what it asks."""
    from coach.recipe.faults import Fault, RecipeFaults
    from coach.recipe.whereabouts import Whereabouts

    stands = Whereabouts(text, source)
    place = stands.of(error.step, error.zone)
    return RecipeFaults([Fault(source, *place, error.words)], stands.system)
