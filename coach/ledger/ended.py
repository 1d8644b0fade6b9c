"""A step that was ended, followed to what it leaves."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from functools import partial
from itertools import pairwise

from coach.ledger.belief import Change
from coach.ledger.course import Course, Mark, Outcome, ReadingMark
from coach.ledger.degrees import outside_share
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

    What the step worked and was not measured counts as made to its target once it ends. A reading that
    counted before says otherwise: it stays as it was answered, and is not doubted for what the end alone
    takes for granted. One that had more to go was worked on since, as surely as it had. Raises LedgerError.
    """
    followed = partial(follow, plan, start, step, unmarked=unmarked, doubted=doubted, undone=undone)
    found = followed(marks, finished=True)
    dropped = {one.mark.entry for one in found.outcomes if one.questioned and not one.old}
    if not dropped:
        return found
    # As it was answered, the heats that nobody marked were not told of yet.
    before = follow(plan, start, step, marks, finished=False, doubted=doubted, undone=undone)
    to_go = {
        one.mark.entry: _to_go_share(plan, step, one)
        for one in before.outcomes
        if one.mark.entry in dropped and one.counts
    }
    likely = 0.0
    for low, high in pairwise(sorted({0.0, *to_go.values(), 1.0})):
        stands = {entry for entry, share in to_go.items() if share <= low}
        case = followed(_believed(marks, stands), finished=True) if stands else found
        likely += high - low
        found = _either(found, case, (high - low) / likely)
    return found


def _to_go_share(plan: Plan, step: Step, outcome: Outcome) -> float:
    """How surely a size that was read was worked on before the end: certain a guard band beyond."""
    judged, surprise, (zone, dimension) = outcome.judged, outcome.surprise, outcome.mark.reading[:2]
    if judged is None or surprise is None:
        return 0.0
    stage = plan.by_step[step.number].get(zone)
    by_metal = judged.below and stage is not None and dimension == stage.after.free
    if judged.verdict is Verdict.MORE_TO_GO or (by_metal and judged.verdict is Verdict.UNSURE):
        return outside_share(judged.beyond_mm, surprise.cold.doubt_mm)
    return 0.0


def _believed(marks: Sequence[Mark], entries: Collection[int]) -> list[Mark]:
    return [
        mark._replace(is_believed=True) if isinstance(mark, ReadingMark) and mark.entry in entries else mark
        for mark in marks
    ]


def _either(one: Course, other: Course, share: float) -> Course:
    """The other course, and that with this share: else its metal is as the one has it."""
    if share >= 1.0:
        return other
    known, metal = other.now.belief, one.now.belief
    lacks = [name for name in known.names if name not in metal]
    metal = metal.predict({name: Change(known.mean(name), {}, known.variance(name)) for name in lacks})
    return other._replace(now=other.now._replace(belief=known.mixed(metal, 1.0 - share)))
