"""A job that goes on otherwise: by its recipe's changed file, or by a change that is said in a line."""

from __future__ import annotations

from typing import TYPE_CHECKING

from coach.bench.admission import following
from coach.bench.answer import Answer
from coach.bench.entering import EntryFault
from coach.bench.in_hand import JobInHand
from coach.bench.meanwhile import enters
from coach.bench.standing import standing_of
from coach.ledger.verdict import PlanState
from coach.quantities.words import NOTHING, Words, run_on, say

if TYPE_CHECKING:
    from collections.abc import Callable

    from coach.bench.file_amended import FileAmended, FileChanges
    from coach.bench.job_state import JobState
    from coach.bench.left_on_rack import LeftOnRack
    from coach.log.body import Body
    from coach.log.entries import Entry
    from coach.log.kinds.amended import Amended
    from coach.log.kinds.quenched_in import QuenchedIn


class Amending(JobInHand):
    """The part of a session that has to do with its recipe's file."""

    @property
    def may_take_another_bar(self) -> bool:
        """Whether the bar that lies there can still be told: it is being marked out, and no step is done."""
        from coach.bench.file_matched import is_another_bar_possible

        return is_another_bar_possible(self.plan.as_written, len(self._state.records))

    def is_bar_begun(self, piece: str) -> bool:
        """Whether work is done on a piece or another of its bar, or is begun that is no marking out."""
        from coach.bench.file_matched import begins_a_bar

        recipe, done = self.plan.as_written, len(self._state.records)
        begun = recipe.steps[: done + self._state.is_begun]
        return any(begins_a_bar(recipe, piece, step, is_done=step.number <= done) for step in begun)

    def file_changes(self, text: str, source: str, title: Words = NOTHING) -> FileAmended:
        """What its recipe's file, as it is now, would change of the steps ahead; nothing is entered.

        `title` says what the change is, where it is none of the file.

        Raises CannotFollow where the job cannot, RecipeFaults and LedgerError where nobody could.
        """
        from coach.bench.file_amended import amendment
        from coach.recipe.reader import read_recipe

        by = "so" if title else "by that file"
        return self._weighed(*amendment(self._state, read_recipe(text, source), title), by)

    def _weighed(self, body: Amended | QuenchedIn, changes: FileChanges, by: str) -> FileAmended:
        from coach.bench.file_amended import FileAmended, Stands, asked_anew, marks_moved

        before = Stands.of(self.standing(), self.plan)
        state, trouble = self._with(body)
        if trouble:
            raise EntryFault(f"The job could not go on {by}: {{}}", trouble)
        after = Stands.of(standing_of(self._entries, state), state.plan)
        asked = asked_anew(self.plan, state.plan)
        marks, rack = marks_moved(self._state, state), self._left_on_rack(self._state, state)
        return FileAmended(changes, before, after, marks, asked, _title(body), rack)

    def _left_on_rack(self, before: JobState, after: JobState) -> tuple[LeftOnRack, ...]:
        from coach.bench.left_on_rack import left_on_rack

        return left_on_rack(self.rack, self.job, self._first_plan, before, after)

    def _with_rack(self, told: Words, before: JobState) -> Words:
        """What was changed, and what is left by that on the rack where it is otherwise."""
        from coach.bench.left_on_rack import left_words

        return run_on((told, left_words(self._left_on_rack(before, self._state))), "; ")

    def change_told(self, line: str) -> FileAmended:
        """What a change of the steps ahead or of the drawing, said in a line, would do; nothing is entered.

        Raises CannotChange, CannotFollow: it cannot be; EntryFault: nothing is otherwise by it.
        """
        if (bath := self._bath(line)) is not None:
            return self._weighed(*bath, "so")
        if (piece := self._to_give_up(line)) is not None:
            return self._without(piece)
        return self._weighed(*self._changed(line), "so")

    def _bath(self, line: str) -> tuple[QuenchedIn, FileChanges] | None:
        from coach.bench.other_bath import other_bath

        return other_bath(self._state, line)

    @enters
    def change(self, line: str) -> Answer:
        """Go on otherwise, as a line says it, from the step in hand on; it can be struck out again.

        Raises what `change_told` does.
        """
        if (piece := self._to_give_up(line)) is not None:
            return self._give_up(piece)
        body, changes = self._bath(line) or self._changed(line)
        self._weighed(body, changes, "so")
        was, entry = self._state, self._enter(body)
        bad = self.standing().verdict is PlanState.OFF_PLAN
        told = self._with_rack(say("changed: {}", _title(body)), was)
        return Answer(told, entry.number, bad_news=bad, replanned=True)

    @property
    def may_be_given_up(self) -> tuple[str, ...]:
        """The pieces that the others can do without."""
        from coach.recipe.giving_up import may_be_given_up

        return may_be_given_up(self.plan.as_written)

    def _to_give_up(self, line: str) -> str | None:
        """The piece that a line gives up, as it was typed; None where it says something else."""
        from coach.bench.giving_up import GIVE_UP

        found = GIVE_UP.fullmatch(" ".join(line.split()))
        return found["piece"] if found is not None else None

    def _without(self, piece: str) -> FileAmended:
        """What giving a piece up would do; nothing is entered."""
        from coach.bench.file_amended import FileAmended, Stands, marks_moved
        from coach.bench.giving_up import ends_with_it, giving_up

        before = Stands.of(self.standing(), self.plan)
        state, entries = self._state, list(self._entries)
        if (end := ends_with_it(state, piece)) is not None:
            state, entries = self._one_more(state, entries, end)
        body, changes = giving_up(state, entries, piece)
        then, _ = self._one_more(state, entries, body)
        after = Stands.of(standing_of(self._entries, then), then.plan)
        rack = self._left_on_rack(self._state, then)
        return FileAmended(changes, before, after, marks_moved(state, then), (), body.title, rack)

    def _one_more(self, state: JobState, entries: list[Entry], body: Body) -> tuple[JobState, list[Entry]]:
        """Where one more entry would lead, and the entries with it; raises EntryFault where it cannot be."""
        entry = entries[-1]._replace(number=entries[-1].number + 1, body=body)
        then, trouble = following(self._first_plan, state, entries, entry)
        if trouble:
            raise EntryFault("The job could not go on so: {}", trouble)
        return then, [*entries, entry]

    def _give_up(self, piece: str) -> Answer:
        from coach.bench.giving_up import ends_with_it, giving_up

        was = self._state
        with self.together():
            end = ends_with_it(self._state, piece)
            if end is not None:
                self._enter(end)
            body, _ = giving_up(self._state, self._entries, piece)
            self._enter(body)
        told = say("step {} is ended as it is; {}", end.step, body.title) if end is not None else body.title
        bad = self.standing().verdict is PlanState.OFF_PLAN
        return Answer(self._with_rack(told, was), self._entries[-1].number, bad_news=bad, replanned=True)

    @property
    def has_next_piece(self) -> bool:
        """Whether the work in hand is still to be done on another piece that is made alike."""
        from coach.recipe.same_work import same_on_others

        done, recipe = len(self._state.records), self.plan.as_written
        return done < len(recipe.steps) and len(recipe.pieces) > 1 and bool(same_on_others(recipe, done))

    def _changed(self, line: str) -> tuple[Amended, FileChanges]:
        from coach.bench.file_amended import amendment
        from coach.bench.forged import forged_text
        from coach.ledger.looking_back import look_back
        from coach.ledger.working import LedgerError
        from coach.recipe.changing import CannotChange, Job, changed_text, why_not
        from coach.recipe.faults import RecipeFaults
        from coach.recipe.one_bar import newly_inside
        from coach.recipe.reader import read_recipe

        state = self._state
        recipe = state.plan.as_written
        job = Job(recipe, len(state.records), state.is_begun, lambda read: look_back(read).as_written)
        try:
            text, words = changed_text(forged_text(state, self._entries, noted=False), line, job)
            new = read_recipe(text, recipe.source)
            if (inside := newly_inside(recipe, new)) is not None:
                raise CannotChange("That cannot be: {}", inside.words())
            body, changes = amendment(state, new, words)
            # A line changes nothing that is done: what the text has otherwise there is how that was forged.
            changes = changes._replace(too_late=())
        except RecipeFaults as faults:
            raise why_not(faults) from None
        except LedgerError as error:
            raise CannotChange("That cannot be: {}", error.words) from None
        if changes.is_none:
            raise EntryFault("Nothing ahead is otherwise by that: there is nothing to take.")
        return body, changes

    def forged(self, told: Callable[[Words], str] | None = None) -> str:
        """The recipe that the job was really forged by so far, as the text of a file.

        With what each way back was, where it is said how that is `told`.
        """
        from coach.bench.forged import forged_text

        return forged_text(self._state, self._entries, told=told)

    @enters
    def amend(self, text: str, source: str, title: Words = NOTHING) -> Answer:
        """Follow the recipe's file as it is now from the step in hand on; it can be struck out again.

        Raises EntryFault: nothing is otherwise; CannotFollow: the job cannot.
        """
        from coach.bench.file_amended import amendment
        from coach.bench.file_matched import BAR_IS_BEGUN
        from coach.recipe.reader import read_recipe

        body, changes = amendment(self._state, read_recipe(text, source), title)
        if changes.is_none and changes.late_bars:
            other = "That file has another bar, and nothing else ahead is otherwise. {}"
            raise EntryFault(other, BAR_IS_BEGUN)
        if changes.is_none:
            raise EntryFault("Nothing ahead is otherwise in that file: there is nothing to take.")
        was, entry = self._state, self._enter(body)
        bad = self.standing().verdict is PlanState.OFF_PLAN
        told = say("changed: {}", title) if title else say("the recipe is amended: {}", changes.words)
        return Answer(self._with_rack(told, was), entry.number, bad_news=bad, replanned=True)


def _title(body: Amended | QuenchedIn) -> Words:
    """What a change is called: by its own title, or by what it says."""
    return body.title if hasattr(body, "title") else body.words()
