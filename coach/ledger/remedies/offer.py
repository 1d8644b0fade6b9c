"""A remedy reckoned: the same forecast, run as if it had been taken."""

from __future__ import annotations

import re
from typing import NamedTuple

from coach.ledger.amendment import Amendment, amended_plan
from coach.ledger.course import AmendmentMark
from coach.ledger.following import follow
from coach.ledger.forecast import Forecast, forecast
from coach.ledger.reason import Reason
from coach.ledger.remedies.base import Idea, Remedy, Situation, Soundness
from coach.ledger.verdict import PlanState, plan_state
from coach.ledger.working import LedgerError
from coach.ledger.workpiece import at_stock
from coach.quantities import Figure, Words, mm


class Offer(NamedTuple):
    """One remedy with its price and what it brings."""

    name: str  # what a command takes it by
    title: Words
    changes: Words
    heats: int  # more than there would be
    price: Figure  # what the tool gives up
    soundness: Soundness
    caution: Words
    chance: float  # of making the drawing, as changed
    state: PlanState
    reason: Reason | LedgerError
    amendment: Amendment
    again: bool  # whether it starts a new piece
    rank: tuple[float, ...]  # lower is better


#: A remedy that does not better the chance by more than this is no way out of what is wrong.
_WORTH = 0.01


def reckoned(situation: Situation, remedy: Remedy, idea: Idea) -> Offer | None:
    """An idea with its new chance; None when the metal cannot do it, or it would not help."""
    try:
        found = as_if_taken(situation, idea)
    except LedgerError:
        return None
    if found.trouble or (remedy.HELPS and found.chance <= situation.found.chance + _WORTH):
        return None
    told = plan_state(found.chance)
    name = "-".join(re.findall(r"\w+", f"{remedy.NAME} {idea.about}".lower().replace("_", " ")))
    rank = (
        _rank_of(told, again=idea.again),
        float(list(Soundness).index(remedy.SOUNDNESS)),
        float(idea.outside),
        float(idea.heats),
        -found.chance,
        idea.price_mm,
    )
    return Offer(
        name=name,
        title=idea.title,
        changes=idea.changes,
        heats=idea.heats,
        price=mm(idea.price_mm),
        soundness=remedy.SOUNDNESS,
        caution=idea.caution,
        chance=found.chance,
        state=told,
        reason=found.reason,
        amendment=idea.amendment,
        again=idea.again,
        rank=rank,
    )


def _rank_of(told: PlanState, *, again: bool) -> float:
    """On plan before tight before off plan; a new piece comes before what stays off plan only."""
    if again:
        return 1.5
    return 0.0 if told is PlanState.ON_PLAN else 1.0 if told is PlanState.TIGHT else 2.0


def as_if_taken(situation: Situation, idea: Idea) -> Forecast:
    """The forecast once the idea is taken.

    Raises:
        LedgerError: the metal cannot make what it asks for.
    """
    if idea.again:
        fresh = situation.first_plan
        return forecast(fresh, None, at_stock(fresh), 1)
    plan = amended_plan(situation.plan, idea.amendment)
    course = None
    if situation.course is not None:
        step = plan.recipe.steps[situation.next_step - 1]
        marks = (*situation.marks, AmendmentMark(0, idea.amendment))
        course = follow(plan, situation.start, step, marks, finished=False)
        return forecast(plan, course, situation.start, situation.next_step)
    return forecast(plan, None, situation.start, situation.next_step)
