"""Which step of a plan leaves the size that decides how it stands."""

from __future__ import annotations

from typing import NamedTuple

from coach.bench.in_file import places_of
from coach.ledger.plan import Plan
from coach.ledger.verdict import Reason
from coach.quantities import Words
from coach.recipe.model import Step


class DecidedBy(NamedTuple):
    """The last step that makes anything of a size, or the zone's own line where none does."""

    step: int  # 0 where no step works that size, which is as its bar is
    title: str
    line: int = 0  # in the recipe's file; 0 where that is not known
    column: int = 0


def decided_by(plan: Plan, reason: Reason | Words) -> DecidedBy | None:
    """The step that leaves the size which decides; None where no size does."""
    if not isinstance(reason, Reason) or reason.zone not in plan.stages:
        return None
    step = _last_on(plan, reason)
    number, title = (step.number, step.title) if step is not None else (0, "")
    where = places_of(plan.recipe)
    place = where.of(number, reason.zone) if where is not None else (0, 0)
    return DecidedBy(number, title, *place)


def _last_on(plan: Plan, reason: Reason) -> Step | None:
    way = [stage for stage in plan.stages[reason.zone] if stage.works(reason.dimension)]
    return way[-1].step if way else None
