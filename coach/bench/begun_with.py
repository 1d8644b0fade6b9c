"""What a job is begun with beside its recipe: the hand and the figures of the shop, told as it begins."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import reduce
from typing import TypeAlias

from coach.ledger.hand import KnownHand
from coach.ledger.verdict import PlanState
from coach.ledger.workpiece import Workpiece, begun_from_shop
from coach.log.entries import Entry
from coach.log.kinds.hand_known import HandKnown
from coach.log.kinds.shop_known import ShopKnown
from coach.quantities.words import NOTHING, Words, run_on, say

#: What is known from other jobs.
Known: TypeAlias = HandKnown | ShopKnown


def begun_by(start: Workpiece, known: Iterable[Known]) -> Workpiece:
    """A marked bar, once all of that is known."""
    return reduce(start_by, known, start)


def start_by(start: Workpiece, known: Known) -> Workpiece:
    """A job's marked bar, once that is known."""
    if isinstance(known, ShopKnown):
        return begun_from_shop(start, known.what, known.value, known.doubt)
    hand = KnownHand(known.scatter, known.scatter_doubt, known.habit, known.habit_doubt).hand
    return start._replace(hand=hand)


def known_in(entries: Iterable[Entry]) -> tuple[Known, ...]:
    """What a job was begun with of the hand and of the shop, by the entries of it that count."""
    return tuple(one.body for one in entries if isinstance(one.body, HandKnown | ShopKnown))


def figures_of_shop(entries: Iterable[Entry]) -> dict[str, ShopKnown]:
    """The figures of the shop that a job was begun with, by their names."""
    return among(known_in(entries))


def among(known: Iterable[Known]) -> dict[str, ShopKnown]:
    """The figures of the shop among what is known, by their names."""
    return {one.what: one for one in known if isinstance(one, ShopKnown)}


def begun_with(entries: Sequence[Entry], stands: PlanState = PlanState.ON_PLAN) -> Words:
    """What is known from other jobs, with the entries that hold it; nothing where nothing is."""
    hand = next((one for one in entries if isinstance(one.body, HandKnown)), None)
    told = [say("Entry {} is {}", str(hand.number), hand.body.words())] if hand is not None else []
    known = {one.number: one.body for one in entries if isinstance(one.body, ShopKnown)}
    if known:
        figures = run_on((one.in_short() for one in known.values()), "; ")
        first, last = str(min(known)), str(max(known))
        which = say("Entry {} is", first) if first == last else say("Entries {} to {} are", first, last)
        told.append(say("{} the shop's own: {}", which, figures))
    if told and stands is not PlanState.ON_PLAN:
        told.append(say("Its marks are the recipe's: the ways back say which to change"))
    return run_on(told, ". ") if told else NOTHING
