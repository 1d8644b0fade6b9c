"""Ways back onto plan: one remedy, one file, found by looking in this package; each reckoned as if taken."""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import cache, partial
from typing import NamedTuple

from coach.declared import classes_in, modules_in
from coach.ledger.remedies.base import Failed, Idea, Remedy, Situation, Soundness, zones_wrong
from coach.ledger.verdict import PlanState, Reason
from coach.quantities import Figure, Wanted, Words, mm

__all__ = [
    "AtRisk",
    "Failed",
    "Idea",
    "Offer",
    "Remedy",
    "Situation",
    "Soundness",
    "Stands",
    "WayBack",
    "offers",
    "remedies",
    "zones_wrong",
]


class AtRisk(NamedTuple):
    """A size that may well be outside of the drawing in the end, once a way back is taken."""

    name: str  # as commands take it: `blade.length`
    label: str  # as it is spoken of
    expected: Figure  # how it comes out
    wanted: Wanted
    chance: float  # that it is inside, by itself


class WayBack(NamedTuple):
    """One way back onto plan, reckoned as if it had been taken."""

    name: str  # what it is taken by
    title: Words  # what to do
    changes: Words  # what changes and by how much
    heats: int  # extra heats
    price: Figure  # what the tool gives up
    gives: Words  # what it gives up of the drawing, in few words; empty for nothing
    soundness: Soundness  # how far it can be trusted
    caution: Words  # what to take care of
    chance: float  # of making the drawing, as changed
    verdict: PlanState  # as changed
    reason: Reason | Words  # what the verdict turns on then: the size that decides, or words
    again: bool  # whether it sets this job aside and begins another
    at_risk: AtRisk | None = None  # the least sure size of what it changes, if that is much


class Offer(NamedTuple):
    """A way back with what taking it changes."""

    way: WayBack
    idea: Idea
    rank: tuple[float, ...]  # lower is better


class Stands(NamedTuple):
    """How a job stands."""

    chance: float
    verdict: PlanState
    reason: Reason | Words  # what that turns on
    wrong: frozenset[str]  # the zones that may not come out as drawn
    refused: frozenset[tuple[str, str]] = frozenset()  # the sizes, by zone and dimension, told outside of it
    at_risk: tuple[str, AtRisk] | None = None  # the least sure size in the end, with its zone
    short: frozenset[str] = frozenset()  # the steels of which too little will be left


#: A remedy that does not better the chance by more than this is no way back from what is wrong (judgement).
_WORTH = 0.01
#: What does not better the chance by as much as can be seen of it betters nothing (our choice).
_SEEN = 0.005
#: What a piece that is cut anew may cost the chance of the job: its own doubts are new (judgement).
_OF_ITS_OWN = 0.03
#: Between tight and a new piece, which has 1.5 (our choice).
_UNREAD_RANK = 1.25


@cache
def remedies() -> tuple[Remedy, ...]:
    """Every remedy there is, by name."""
    found: dict[str, Remedy] = {}
    for name in modules_in(__path__):
        for thing in classes_in(f"{__name__}.{name}"):
            if issubclass(thing, Remedy) and "NAME" in vars(thing):
                found[thing.NAME] = thing()
    return tuple(found[name] for name in sorted(found))


def offers(
    situation: Situation, stands: Stands, if_taken: Callable[[Idea], Stands | None]
) -> tuple[Offer, ...]:
    """Everything that can be done about a job as it stands, the best first; empty when nothing is wrong.

    Args:
        situation: where the job stands.
        stands: how it does.
        if_taken: how it would stand once an idea is taken; None where the metal cannot make what that asks.
    """
    found = []
    for remedy in remedies():
        # Of ideas that are as good the first is that of the drawing's first size, not of the one read first.
        for idea in sorted(remedy.ideas(situation), key=partial(_place, situation)):
            then = if_taken(idea)
            if then is None or _breaks_its_word(situation, idea, then):
                continue
            if not remedy.HELPS or is_better(then, stands) or _is_put_right_alone(idea, then, stands):
                found.append(_offer(remedy, idea, then))
    return tuple(sorted(found, key=lambda offer: offer.rank))


def _place(situation: Situation, idea: Idea) -> tuple[int, int, str]:
    """Where the drawing has what an idea is about: by its zone, then by its size; what is none comes last."""
    zones = situation.plan.recipe.drawing
    zone, _, dimension = idea.about.partition(".")
    if zone not in zones:
        return len(zones), 0, ""
    sizes = [*zones[zone].limits]
    at = sizes.index(dimension) if dimension in sizes else len(sizes)
    return [*zones].index(zone), at, dimension


def _breaks_its_word(situation: Situation, idea: Idea, then: Stands) -> bool:
    """Whether a size that it brings inside of the drawing would be told outside of it all the same."""
    drawing = situation.plan.recipe.drawing
    promised = {
        (one.zone, one.dimension)
        for one in idea.amendment.regained
        if not one.under_way
        and (limits := drawing[one.zone].limits.get(one.dimension)) is not None
        and limits.contains(one.size_mm)
    }
    return bool(promised & then.refused)


def _is_put_right_alone(idea: Idea, then: Stands, now: Stands) -> bool:
    """Whether a piece that is cut anew has its sizes again, where another piece keeps the job off plan."""
    anew = {one.zone for one in idea.amendment.cut_anew}
    mended = {zone for zone, _ in now.refused - then.refused} & anew
    return bool(mended) and then.refused < now.refused and then.chance > now.chance - _OF_ITS_OWN


def is_better(then: Stands, now: Stands) -> bool:
    """One zone of several that is put right is a way back too, though it alone does not raise the chance.

    But none is that lowers it, and none that puts the last wrong zone right and betters nothing all the same.
    A mark made anew is one, where there is metal enough and only the mark keeps the job from being on plan.
    """
    states = list(PlanState)
    is_called_better = states.index(then.verdict) < states.index(now.verdict)
    least = now.chance - _WORTH if then.wrong else now.chance + _SEEN
    mends_one = then.wrong < now.wrong and then.chance > least
    mends_one = mends_one or (then.short < now.short and then.chance > now.chance - _WORTH)
    return then.chance > now.chance + _WORTH or mends_one or is_called_better


def _offer(remedy: Remedy, idea: Idea, stands: Stands) -> Offer:
    way = WayBack(
        name="-".join(re.findall(r"\w+", f"{remedy.NAME} {idea.about}".lower().replace("_", " "))),
        title=idea.title,
        changes=idea.changes,
        heats=idea.heats,
        price=mm(idea.price_mm),
        gives=idea.gives,
        soundness=remedy.SOUNDNESS,
        caution=idea.caution,
        chance=stands.chance,
        verdict=stands.verdict,
        reason=stands.reason,
        again=idea.again,
        at_risk=_risk(idea, stands),
    )
    return Offer(way, idea, _rank(way, idea))


def _risk(idea: Idea, then: Stands) -> AtRisk | None:
    """What may well be outside in the end of a zone that it changes: of others it says nothing."""
    if then.at_risk is None:
        return None
    zone, risk = then.at_risk
    changed = {getattr(row, "zone", "") for rows in idea.amendment for row in rows}
    return risk if zone in changed else None


def _rank(way: WayBack, idea: Idea) -> tuple[float, ...]:
    """On plan before tight before off plan; a new piece comes before what stays off plan only.

    What is cut by a size that nobody read comes behind whatever else mends it, and before a new piece. An
    open weld is welded before anything else is done (common practice, no source).
    """
    state = 1.5 if way.again else float(list(PlanState).index(way.verdict))
    state = max(state, _UNREAD_RANK) if idea.unread else state
    at_once = idea.at_once and way.verdict is not PlanState.OFF_PLAN
    soundness = float(list(Soundness).index(way.soundness))
    # As near as it is reckoned: the order of typing leaves something in the last digits.
    cost = float(idea.outside), float(way.heats), -round(way.chance, 4), round(way.price.value, 3)
    return float(not at_once), state, soundness, *cost
