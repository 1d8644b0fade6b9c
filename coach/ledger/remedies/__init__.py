"""Ways back onto plan: one remedy, one file, found by looking in this package; each reckoned by forecast."""

from __future__ import annotations

import pkgutil
import re
from functools import cache
from typing import NamedTuple

from coach.declared import classes_in
from coach.ledger.amendment import Amendment, amended_plan, amended_workpiece
from coach.ledger.course import AmendmentMark
from coach.ledger.following import follow
from coach.ledger.forecast import Forecast, as_finished, forecast
from coach.ledger.remedies.base import Failed, Idea, Remedy, ShortSkin, Situation, Soundness
from coach.ledger.verdict import PlanState, Reason
from coach.ledger.working import LedgerError
from coach.ledger.workpiece import at_stock
from coach.quantities import Figure, Words, mm

__all__ = [
    "Failed",
    "Offer",
    "Remedy",
    "ShortSkin",
    "Situation",
    "Soundness",
    "WayBack",
    "offers",
    "remedies",
]


class WayBack(NamedTuple):
    """One way back onto plan, reckoned as if it had been taken."""

    name: str  # what it is taken by
    title: Words  # what to do
    changes: Words  # what changes and by how much
    heats: int  # extra heats
    price: Figure  # what the tool gives up
    soundness: Soundness  # how far it can be trusted
    caution: Words  # what to take care of
    chance: float  # of making the drawing, as changed
    verdict: PlanState  # as changed
    reason: Reason  # what the verdict turns on then
    again: bool  # whether it sets this job aside and begins another


class Offer(NamedTuple):
    """A way back with what taking it changes."""

    way: WayBack
    amendment: Amendment
    rank: tuple[float, ...]  # lower is better


#: A remedy that does not better the chance by more than this is no way back from what is wrong.
_WORTH = 0.01


@cache
def remedies() -> tuple[Remedy, ...]:
    """Every remedy there is, by name."""
    found: dict[str, Remedy] = {}
    for listed in pkgutil.iter_modules(__path__):
        for thing in classes_in(f"{__name__}.{listed.name}"):
            if issubclass(thing, Remedy) and "NAME" in vars(thing):
                found[thing.NAME] = thing()
    return tuple(found[name] for name in sorted(found))


def offers(situation: Situation) -> tuple[Offer, ...]:
    """Everything that can be done about a job as it stands, the best first; empty when nothing is wrong."""
    found = [
        offer
        for remedy in remedies()
        for idea in remedy.ideas(situation)
        if (offer := _reckoned(situation, remedy, idea)) is not None
    ]
    return tuple(sorted(found, key=lambda offer: offer.rank))


def _reckoned(situation: Situation, remedy: Remedy, idea: Idea) -> Offer | None:
    """An idea with its new chance; None when the metal cannot do it, or it would not help."""
    try:
        found = _as_if_taken(situation, idea)
    except LedgerError:
        return None
    reason = found.reason
    if isinstance(reason, LedgerError):
        return None
    if remedy.HELPS and found.chance <= situation.found.chance + _WORTH:
        return None
    way = WayBack(
        name="-".join(re.findall(r"\w+", f"{remedy.NAME} {idea.about}".lower().replace("_", " "))),
        title=idea.title,
        changes=idea.changes,
        heats=idea.heats,
        price=mm(idea.price_mm),
        soundness=remedy.SOUNDNESS,
        caution=idea.caution,
        chance=found.chance,
        verdict=found.state,
        reason=reason,
        again=idea.again,
    )
    return Offer(way, idea.amendment, _rank(way, outside=idea.outside))


def _rank(way: WayBack, *, outside: bool) -> tuple[float, ...]:
    """On plan before tight before off plan; a new piece comes before what stays off plan only."""
    state = 1.5 if way.again else float(list(PlanState).index(way.verdict))
    soundness = float(list(Soundness).index(way.soundness))
    return state, soundness, float(outside), float(way.heats), -way.chance, way.price.value


def _as_if_taken(situation: Situation, idea: Idea) -> Forecast:
    """The forecast once the idea is taken; raises LedgerError where the metal cannot make what it asks."""
    if idea.again:
        fresh = situation.first_plan
        return forecast(fresh, None, at_stock(fresh), 1)
    plan, course = amended_plan(situation.plan, idea.amendment), situation.course
    if course is None:  # a finished tool is changed as it lies there
        start = amended_workpiece(situation.start, idea.amendment)
        return as_finished(forecast(plan, None, start, situation.next_step))
    step = plan.recipe.steps[situation.next_step - 1]
    marks = (*situation.marks, AmendmentMark(0, idea.amendment))
    course = follow(plan, situation.start, step, marks, finished=False)
    return forecast(plan, course, situation.start, situation.next_step)
