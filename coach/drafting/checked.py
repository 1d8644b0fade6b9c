"""A recipe that is proposed, with its allowances written in and how it stands."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final, NamedTuple

from coach.bench.margins import allowances_for
from coach.bench.planned import Planned, planned_tool
from coach.ledger.looking_back import look_back
from coach.ledger.plan import Plan
from coach.ledger.verdict import PlanState
from coach.quantities import NOTHING, Words
from coach.recipe.fixing import with_allowances
from coach.recipe.reader import read_recipe

#: The chance of enough metal that is marked out for: the first that keeps the sizes in limits (our choice).
CHANCES: Final = (0.99, 0.95)
#: More than this of a zone is never marked out beyond its plan (judgement).
_MOST_ALLOWANCE: Final = 0.4

#: Where no allowance was written in.
NONE_WRITTEN: Final[Mapping[str, float]] = MappingProxyType({})


class Draft(NamedTuple):
    """A recipe that is proposed."""

    text: str
    plan: Plan
    planned: Planned
    allowances: Mapping[str, float] = NONE_WRITTEN  # those that were written in, by the zone
    plain: str = ""  # the text before they were
    otherwise: Words = NOTHING  # what was answered and cannot be, and what is proposed in its place


def checked(text: str, source: str = "proposed") -> Draft:
    """A recipe's text with its allowances written in, and how it stands.

    Raises RecipeFaults and LedgerError.
    """
    recipe = read_recipe(text, source)
    plan = look_back(recipe)
    planned = planned_tool(plan)
    if recipe.enough_for is not None or planned.verdict is not PlanState.ON_PLAN:
        shares = allowances_for(recipe, recipe.enough_for or CHANCES[0])
        if shares and max(shares.values()) <= _MOST_ALLOWANCE:
            fuller = with_allowances(text, source, shares)
            with_spare = look_back(read_recipe(fuller, source))
            then = planned_tool(with_spare)
            if planned.findings or not then.findings:  # no spare that leaves a size beside the drawing
                return Draft(fuller, with_spare, then, shares, text)
    return Draft(text, plan, planned, plain=text)


def is_sound(draft: Draft) -> bool:
    """Whether it is on plan and nothing is found."""
    return not draft.planned.findings and draft.planned.verdict is PlanState.ON_PLAN


def worth(draft: Draft) -> tuple[bool, float]:
    """The better of two drafts has no finding, and then the higher chance."""
    return not draft.planned.findings, draft.planned.chance or 0.0
