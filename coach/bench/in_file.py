"""What is found wrong or asked about a recipe, with its line and column in the recipe's file."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import TYPE_CHECKING, TypeVar

from coach.ledger.questions import Question
from coach.ledger.weigh import Finding
from coach.recipe.model import Recipe

if TYPE_CHECKING:
    from coach.recipe.whereabouts import Whereabouts


_Told = TypeVar("_Told", Finding, Question)


def findings_in_file(recipe: Recipe, findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Findings with their places; without where the steps are no longer those of the file."""
    return _placed(
        recipe,
        findings,
        lambda where, one: where.of_bar(one.piece) if one.piece else where.of(one.step, one.zone),
    )


def questions_in_file(recipe: Recipe, questions: Iterable[Question]) -> tuple[Question, ...]:
    """The same of questions."""
    return _placed(recipe, questions, lambda where, one: where.of(one.step, one.zone))


def _placed(
    recipe: Recipe, told: Iterable[_Told], place: Callable[[Whereabouts, _Told], tuple[int, int]]
) -> tuple[_Told, ...]:
    found = tuple(told)
    where = places_of(recipe) if found else None
    if where is None:
        return found
    places = (place(where, one) for one in found)
    return tuple(
        one._replace(line=line, column=column) for one, (line, column) in zip(found, places, strict=True)
    )


def places_of(recipe: Recipe) -> Whereabouts | None:
    """Where its steps and zones stand in its file; None where they are no longer those of the file."""
    if not recipe.text:
        return None
    from coach.recipe.whereabouts import Whereabouts  # which takes the parser of files

    where = Whereabouts.within(recipe.text, recipe.source)
    return where if where.steps == len(recipe.steps) else None
