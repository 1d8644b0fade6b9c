"""`--bar`: the bar that is there, in place of the one that a recipe names."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from coach.cli.reply import Refused
from coach.quantities.takes import Take, plain
from coach.quantities.words import Words

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

    from coach.bench.begun_with import Known
    from coach.bench.planned import Planned
    from coach.ledger.plan import Plan
    from coach.ledger.weigh import Finding
    from coach.recipe.faults import RecipeFaults
    from coach.recipe.model import Recipe


def _how_many(text: str) -> int:
    from coach.drafting.make import read_how_many

    return read_how_many(text)


BAR = Take(
    "--bar",
    'the bar that is there, such as "square 14" or "45 x 20, long 310"; of several pieces PIECE=BAR, with ; '
    "between",
    "BAR",
)
MAKE = Take(
    "--make",
    "how many are made of it, one after the other from one bar with one row of marks",
    "COUNT",
    plain(_how_many),
)
_ANYWAY = "Take another bar, or begin it all the same with --anyway."
_UPSET = (
    "Take another bar; or write it out by `coach new --like`, put the upset before that step and begin from "
    "that file; or begin it all the same with --anyway."
)


class Rebarred(NamedTuple):
    """A recipe from other bars, with what it takes to find its steps in the file as it was."""

    recipe: Recipe
    plan: Plan
    planned: Planned


def with_bars(
    text: str, source: str, bars: str, known: Callable[[Recipe], Iterable[Known]] = lambda _: ()
) -> Rebarred:
    """The recipe from those bars; what is found wrong with it stands where the file says it.

    `known` says what a job of it is begun with of the shop and of the hand.

    Raises RecipeFaults where the metal account cannot go on.
    """
    from coach.bench.planned import planned_tool
    from coach.drafting.from_bar import from_bars
    from coach.ledger.looking_back import look_back
    from coach.ledger.working import LedgerError
    from coach.recipe.reader import read_recipe
    from coach.recipe.whereabouts import Whereabouts

    made = from_bars(text, source, [one for one in bars.split(";") if one.strip()])
    recipe = read_recipe(made.text, source)
    where = Whereabouts(text, source)

    def place(step: int, zone: str, piece: str = "") -> tuple[int, int]:
        if piece:
            return where.of_bar(piece)
        was = made.steps[step - 1] if step else 0
        worked = recipe.steps[step - 1].zones if step else ()
        return where.of(was, zone or next(iter(worked), ""))

    def placed(finding: Finding) -> Finding:
        line, column = place(finding.step, finding.zone, finding.piece)
        return finding._replace(line=line, column=column)

    try:
        plan = look_back(recipe)
        planned = planned_tool(plan, known(recipe))
    except LedgerError as error:
        raise _fault(source, place(error.step, error.zone), error) from None
    findings = tuple(map(placed, planned.findings))
    told = {was.placed: now.placed for was, now in zip(planned.findings, findings, strict=True)}
    reason = (
        planned.reason if not isinstance(planned.reason, Words) else told.get(planned.reason, planned.reason)
    )
    return Rebarred(recipe, plan, planned._replace(findings=findings, reason=reason))


def _fault(source: str, at: tuple[int, int], error: Exception) -> RecipeFaults:
    from coach.quantities.refusal import Refusal
    from coach.quantities.words import say
    from coach.recipe.faults import Fault, RecipeFaults

    assert isinstance(error, Refusal)
    return RecipeFaults([Fault(source, *at, say("It cannot be made of that bar: {}", error.words))])


def refuse_what_cannot_be(made: Rebarred) -> None:
    """Refuse what the metal cannot do from those bars; what may run short can be begun all the same."""
    from coach.ledger.weigh import Cannot
    from coach.ledger.weigh_sizes import can_be_upset
    from coach.telling.words import write
    from coach.telling.writing import Shown

    if not made.planned.findings:
        return
    first = made.planned.findings[0]
    stage = made.plan.by_step[first.step].get(first.zone) if first.step else None
    upset = first.what in (Cannot.GATHER, Cannot.KEEP_SECTION) and stage is not None and can_be_upset(stage)
    at = f"{made.recipe.source}:{first.line}:{first.column}"
    why = write(first.sentence, Shown(made.recipe.system))
    what_then = _UPSET if upset else _ANYWAY
    raise Refused("From that bar it is off plan before it is begun. {}: {} {}", at, why, what_then)
