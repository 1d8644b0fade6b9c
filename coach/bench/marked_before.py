"""Marks that were made for the drawing as it was before it was changed."""

from __future__ import annotations

from coach.bench.job_state import JobState
from coach.ledger.course import Course, Outcome
from coach.ledger.verdict import Verdict
from coach.log.amends import Amends
from coach.log.body import Body
from coach.log.kinds.amended import Amended
from coach.operations.measures import MARK


def as_marked_then(state: JobState, course: Course, outcome: Outcome | None) -> Outcome | None:
    """A reading of the step in hand, which is old where it is of a mark that was drawn elsewhere then.

    It was no slip: the drawing was changed since, and what lies where it is wanted now stays good.
    """
    if outcome is None or outcome.mark.reading.dimension != MARK:
        return outcome
    if course.step.number <= len(state.records) or (outcome.counts and outcome.verdict is Verdict.GOOD):
        return outcome
    changed = (one.number for one in state.counted.values() if _draws_anew(one.body))
    return outcome._replace(old=True) if max(changed, default=0) > outcome.mark.entry else outcome


def _draws_anew(body: Body) -> bool:
    """Whether an entry changes what is asked for, and by that where marks are wanted: a change, a haft."""
    return isinstance(body, Amended) or (isinstance(body, Amends) and body.amendment.is_of_drawing)
