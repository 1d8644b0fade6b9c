"""What can keep an entry from being taken, as the one sentence that is shown."""

from __future__ import annotations

from coach.bench.session import EntryFault
from coach.ledger.working import LedgerError
from coach.log.jobs import LogError
from coach.recipe.faults import RecipeFaults

#: Everything that a person or a disk can cause; anything else is a fault of the program.
TROUBLES = (EntryFault, LogError, LedgerError, RecipeFaults)


def sentence_of(trouble: Exception) -> str:
    """The sentence to show; of a recipe's faults the first, and how many there are."""
    if isinstance(trouble, RecipeFaults):
        more = len(trouble.faults) - 1
        return f"{trouble.faults[0]}" + (f" (and {more} more)" if more > 0 else "")
    return str(trouble)
