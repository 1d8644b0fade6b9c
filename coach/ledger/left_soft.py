"""What no step of a job hardens: a file bites there, and where it skates, some parts are bad news."""

from __future__ import annotations

from typing import Final

from coach.ledger.plan import Plan
from coach.metals.wanted_hardness import PartOfATool, soft_part
from coach.operations import Does
from coach.operations.shop_test import Result
from coach.operations.shop_tests import SHOP_TESTS
from coach.quantities import NOTHING, Figure, Kind, Words, as_words, run_on, say

#: What is done about it (common practice, no source).
_HARD: Final = (
    "A file skates on it, and no step hardens it: it must have lain in its heat. {} is to be {} at the "
    "most: draw it back soft before a blow, with what is hardened kept cool, until a file bites."
)


def is_left_soft(plan: Plan, zone: str, test: str) -> bool:
    """Whether a test says something else of a zone because no step hardens it.

    What lies in the fire of a quench is hardened with it, and steel that is laid on with what it is laid on.
    """
    if SHOP_TESTS[test].never_hardened is None:
        return False
    steps = plan.recipe.steps
    quenched = {one for step in steps if step.does(Does.QUENCHES) for one in (*step.zones, *step.heated)}
    if not quenched:
        return False
    laid = [{*step.zones, step.lays} for step in steps if step.lays is not None]
    for together in laid:
        quenched |= together if together & quenched else set()
    return zone not in quenched


def is_hard_amiss(plan: Plan, zone: str, test: str, result: Result) -> bool:
    """Whether a test says that a part is hard which no step hardens and which is to stay soft."""
    return result is Result.PASS and is_left_soft(plan, zone, test) and _part(plan, zone) is not None


def draw_it_back(plan: Plan, zone: str) -> Words:
    """What is done about a part that came out hard and is to be soft; nothing where it may be hard."""
    part = _part(plan, zone)
    if part is None:
        return NOTHING
    article = "An" if part.part[:1] in "aeiou" else "A"
    told = say(_HARD, f"{article} {part.part}", Figure(part.high.value, Kind.HARDNESS))
    return run_on((told, as_words(part.note)))


def _part(plan: Plan, zone: str) -> PartOfATool | None:
    return soft_part(plan.recipe.piece_of(zone).name, zone)
