"""Going back to the last finished step, and returning from it."""

from __future__ import annotations

from coach.bench.entering import EntryFault
from coach.bench.job_state import JobState
from coach.log.kinds.struck import Struck
from coach.log.kinds.went_back import WentBack
from coach.quantities.words import Words, say
from coach.recipe.model import Step


def going_back(state: JobState) -> WentBack:
    """The entry that goes back to the last finished step; raises EntryFault where none is finished."""
    records = state.records
    if not records or records[-1].done_entry is None:
        raise EntryFault("No step is finished yet, so there is none to go back to.")
    return WentBack(entry=records[-1].done_entry)


def gone_back(left: Step | None, step: Step) -> Words:
    """What is said of going back to `step`; `left` is the step that was in hand, None at the job's end."""
    to = f"step {left.number}" if left is not None else "where every step is done"
    return say("back at step {}, {}; undo returns to {}", step.number, step.title, to)


def counts_again(struck: Struck, step: Step | None) -> Words:
    """What is said when a strike is itself struck out; `step` is in hand since, None at the job's end."""
    if not isinstance(struck, WentBack):
        return say("entry {} counts again", struck.entry)
    if step is None:
        return say("returned: every step is done")
    return say("returned to step {}, {}", step.number, step.title)
