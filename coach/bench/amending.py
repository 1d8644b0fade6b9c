"""A job that takes its recipe's changed file: what that would change, and following it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from coach.bench.answer import Answer
from coach.bench.entering import EntryFault
from coach.bench.in_hand import JobInHand
from coach.bench.meanwhile import enters
from coach.bench.replay import put_in_by
from coach.bench.standing import standing_of
from coach.ledger.verdict import PlanState
from coach.log.entries import Entry
from coach.log.kinds.amended import Amended
from coach.log.kinds.struck import Struck
from coach.quantities.words import say

if TYPE_CHECKING:
    from coach.bench.file_amended import FileAmended


class Amending(JobInHand):
    """The part of a session that has to do with its recipe's file."""

    def file_changes(self, text: str, source: str) -> FileAmended:
        """What its recipe's file, as it is now, would change of the steps ahead; nothing is entered.

        Raises CannotFollow where the job cannot, RecipeFaults and LedgerError where nobody could.
        """
        from coach.bench.file_amended import FileAmended, Stands, amendment
        from coach.recipe.reader import read_recipe

        body, changes = amendment(self._state, read_recipe(text, source))
        before = Stands.of(self.standing(), self.plan)
        state, trouble = self._with(body, self._entries[-1].at)
        if trouble:
            raise EntryFault("The job could not go on by that file: {}", trouble)
        return FileAmended(changes, before, Stands.of(standing_of(self._entries, state), state.plan))

    def forged(self) -> str:
        """The recipe that the job was really forged by so far, as the text of a file."""
        from coach.bench.forged import forged_text

        return forged_text(self._state, self._entries)

    @enters
    def amend(self, text: str, source: str) -> Answer:
        """Follow the recipe's file as it is now from the step in hand on; it can be struck out again.

        Raises EntryFault: nothing is otherwise; CannotFollow: the job cannot.
        """
        from coach.bench.file_amended import amendment
        from coach.recipe.reader import read_recipe

        body, changes = amendment(self._state, read_recipe(text, source))
        if changes.is_none:
            raise EntryFault("Nothing ahead is otherwise in that file: there is nothing to take.")
        entry = self._enter(body)
        bad = self.standing().verdict is PlanState.OFF_PLAN
        return Answer(
            say("the recipe is amended: {}", changes.words), entry.number, bad_news=bad, replanned=True
        )


def refuse_to_strike(found: Entry, entries: Sequence[Entry], later: Sequence[Entry]) -> None:
    """Raise EntryFault where work logged by the numbers of steps would come under other steps without it."""
    put_in = put_in_by(found, entries)
    if put_in and any(other.body.of_step > put_in[0].after for other in later):
        raise EntryFault(
            f"Steps were put in after step {put_in[0].after} by that, and work beyond it is logged "
            f"since; strike that out first."
        )
    by_number = {one.number: one.body for one in entries}
    body = found.body
    while isinstance(body, Struck):
        body = by_number[body.entry]
    if isinstance(body, Amended) and any(other.body.of_step >= body.step for other in later):
        raise EntryFault(
            f"The recipe was amended from step {body.step} on by that, and work there is logged since; "
            f"strike that out first."
        )
