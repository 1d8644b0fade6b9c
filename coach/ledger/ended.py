"""A step that was ended, followed to what it leaves."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial

from coach.ledger.course import Course, Mark, ReadingMark
from coach.ledger.fire_after_temper import NOT_UNDONE, Undone
from coach.ledger.following import follow
from coach.ledger.plan import Plan
from coach.ledger.verdict import Verdict
from coach.ledger.workpiece import Workpiece
from coach.recipe.model import Step


def ended(
    plan: Plan,
    start: Workpiece,
    step: Step,
    marks: Sequence[Mark],
    *,
    unmarked: float,
    doubted: frozenset[int],
    undone: Undone = NOT_UNDONE,
) -> Course:
    """A step with the marks entered in it, ended; `unmarked` of its heats were taken and not entered.

    What the step worked and was not measured counts as made to its target once it ends. A reading that was
    too near its limit to tell, and counted, says otherwise: it stays as it was answered, and is not doubted
    for what the end alone takes for granted. Raises LedgerError.
    """
    followed = partial(follow, plan, start, step, unmarked=unmarked, doubted=doubted, undone=undone)
    found = followed(marks, finished=True)
    dropped = {one.mark.entry for one in found.outcomes if one.questioned and not one.old}
    if not dropped:
        return found
    # As it was answered, the heats that nobody marked were not told of yet.
    before = follow(plan, start, step, marks, finished=False, doubted=doubted, undone=undone)
    answered = {
        one.mark.entry
        for one in before.outcomes
        if one.mark.entry in dropped and one.counts and one.verdict is Verdict.UNSURE
    }
    if not answered:
        return found
    stands = [
        mark._replace(is_answered=True) if isinstance(mark, ReadingMark) and mark.entry in answered else mark
        for mark in marks
    ]
    return followed(stands, finished=True)
