"""What is found wrong or asked about a recipe, with its line and column in the recipe's file."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import TYPE_CHECKING, Final, TypeVar

from coach.ledger.questions import Question
from coach.ledger.weigh import Cannot, Finding
from coach.quantities import run_on, say
from coach.recipe.model import Recipe

if TYPE_CHECKING:
    from coach.bench.job_state import JobState
    from coach.recipe.whereabouts import Whereabouts


#: What is wrong with a size or its tolerance, which the zone's own line may say.
_OF_A_SIZE: Final = frozenset({Cannot.MAKE_DRAWING, Cannot.MAKE_SIZE, Cannot.TELL})
#: What is wrong with a heat, which may be said once for many steps.
OF_A_HEAT: Final = frozenset({Cannot.STAND_HEAT, Cannot.GIVE_COLD})

_Told = TypeVar("_Told", Finding, Question)


def findings_in_file(recipe: Recipe, findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Findings with their places; without where the steps are no longer those of the file."""

    def place(where: Whereabouts, one: Finding) -> tuple[int, int]:
        if one.piece:
            return where.of_bar(one.piece)
        if one.what in OF_A_HEAT:
            return where.of_heat(one.step)
        return (where.of_size if one.what in _OF_A_SIZE else where.of)(one.step, one.zone)

    return _placed(recipe, findings, place)


def findings_of_job(state: JobState, findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """The same of a job; once it was changed in a line its steps stand in no file that the smith has.

    What is found of a step that was changed so says by which entry.
    """
    from coach.log.kinds.amended import AS_IN_FILE, Amended
    from coach.log.kinds.quenched_in import QuenchedIn

    changes = [entry for entry in state.counted.values() if isinstance(entry.body, Amended | QuenchedIn)]
    in_file = [
        isinstance(entry.body, Amended) and entry.body.title.template == AS_IN_FILE for entry in changes
    ]
    if not in_file or in_file[-1]:
        return findings_in_file(state.plan.recipe, findings)
    if any(in_file):
        return tuple(findings)
    began = [step._replace(number=0) for step in state.first_plan.recipe.steps]
    now = state.plan.recipe.steps
    by = say("Changed by you: entry {}.", str(changes[-1].number))
    return tuple(
        one
        if not one.step or now[one.step - 1]._replace(number=0) in began
        else one._replace(sentence=run_on((one.sentence, by)))
        for one in findings
    )


def questions_in_file(recipe: Recipe, questions: Iterable[Question]) -> tuple[Question, ...]:
    """The same of questions."""

    def place(where: Whereabouts, one: Question) -> tuple[int, int]:
        if one.key:
            return where.of_head(one.key)
        return where.of_bar(one.piece) if one.piece else where.of(one.step, one.zone)

    return _placed(recipe, questions, place)


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
