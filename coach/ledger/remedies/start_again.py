"""Start again: the job is set aside and a new piece begun by the same recipe."""

from __future__ import annotations

from typing import ClassVar

from coach.ledger.amendment import Amendment
from coach.ledger.remedies.base import Idea, Remedy, Situation
from coach.ledger.verdict import PlanState
from coach.quantities import write_count


class StartAgain(Remedy):
    """Always possible, and the dearest."""

    NAME: ClassVar[str] = "start again"
    HELPS: ClassVar[bool] = False
    SOUNDNESS: ClassVar[int] = 3

    def ideas(self, situation: Situation) -> list[Idea]:
        """One idea when the job is not on plan, or a test says that it may be lost, and a step is behind."""
        ahead = situation.steps_ahead()
        spoilt = any(failed.spoils and not failed.is_met_by(ahead) for failed in situation.failed)
        if situation.next_step <= 1 or not (spoilt or situation.found.state is not PlanState.ON_PLAN):
            return []
        heats = situation.heats_so_far
        spent = f"the {write_count(heats, 'heat')} so far" if heats else "the work so far"
        return [
            Idea(
                about="",
                title="Set this job aside and start a new piece",
                changes=f"By the recipe as it was; {spent} and the metal are lost.",
                amendment=Amendment(),
                heats=heats,
                again=True,
            )
        ]
