"""Start again: the job is set aside and a new piece begun by the same recipe."""

from __future__ import annotations

from collections.abc import Iterator

from coach.ledger.amendment import Amendment
from coach.ledger.remedies.base import Idea, Remedy, Situation, Soundness
from coach.ledger.verdict import PlanState
from coach.quantities import as_words, counted, say


class StartAgain(Remedy):
    """Always possible, and the dearest."""

    NAME = "start again"
    HELPS = False
    SOUNDNESS = Soundness.LAST_RESORT

    def ideas(self, situation: Situation) -> Iterator[Idea]:
        """One idea when the job is not on plan, or a test says that it may be lost, and a step is behind."""
        spoilt = any(failed.spoils and not situation.is_met(failed) for failed in situation.failed)
        heats, metal = situation.heats_so_far, situation.found.state
        is_short = PlanState.OFF_PLAN in (situation.verdict, metal) or metal is PlanState.TIGHT
        if situation.next_step > 1 and (spoilt or is_short):
            spent = counted(heats, "heat") if heats else as_words("work")
            yield Idea(
                about="",
                title=as_words("Set this job aside and start a new piece"),
                changes=say("By the recipe as it was; the {} so far and the metal are lost.", spent),
                amendment=Amendment(),
                heats=heats,
                again=True,
            )
