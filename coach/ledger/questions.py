"""What a recipe says that may well be meant, and is asked about: slips that no grammar can catch."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from coach.ledger.plan import Plan
from coach.ledger.weigh import placed_words
from coach.metals.tempering import HIGHEST_C as _HOTTEST_TEMPER_C
from coach.operations.does import HeatKind
from coach.quantities import Kind, Span, Words, celsius, say
from coach.recipe.colour_words import may_be_c
from coach.recipe.model import Step


class Question(NamedTuple):
    """One thing to be looked at again, and where it stands."""

    step: int  # 0 for the drawing
    zone: str  # the zone; empty where it is the whole step
    sentence: Words
    line: int = 0  # in the recipe's file; 0 where that is not known
    column: int = 0

    @property
    def placed(self) -> Words:
        """The sentence with where it stands, where that is known."""
        return placed_words(self.sentence, self.line, self.column)


def questions(plan: Plan) -> Iterator[Question]:
    """Everything to be asked about a recipe, in the order of its steps."""
    for step in plan.recipe.steps:
        if words := _other_colour(step):
            yield Question(step.number, "", words)


def _other_colour(step: Step) -> Words | None:
    """A colour that no published table has for the temperature beside it.

    An oxide film's colour tells of a run of minutes; beside a soak it says nothing of its heat.
    """
    heat_c = step.temperature_c
    if heat_c is None or not step.colour or "soak" in step.targets:
        return None
    if step.heat_kind is HeatKind.COLD and heat_c > _HOTTEST_TEMPER_C:
        return None
    between = may_be_c(step.colour)
    if between is None or between[0] <= heat_c <= between[1]:
        return None
    return say(
        "Step {}, {}: {} is called {}, and the published tables have that colour between {}: is one of the "
        "two a slip?",
        *(step.number, step.title, celsius(heat_c), step.colour, Span(*between, Kind.TEMPERATURE)),
    )
