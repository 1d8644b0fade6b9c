"""`coach check`: every fault of a recipe, before any fire is lit."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from coach.cli.opening import RECIPE, recipe_path
from coach.cli.reply import Asked, Reply, reply
from coach.quantities.takes import Typed
from coach.quantities.words import counted
from coach.telling.words import write
from coach.telling.writing import Shown

if TYPE_CHECKING:
    from coach.ledger.verdict import PlanState
    from coach.ledger.weigh import Finding
    from coach.recipe.faults import Fault

SUMMARY = "Read recipes and name every fault: file, line, column, what is wrong."
TAKES = (RECIPE._replace(name="recipes", typed=Typed.SEVERAL),)


class CheckedRecipes(NamedTuple):
    """The recipes that were checked."""

    recipes: tuple[Checked, ...]


def run(asked: Asked) -> Reply[CheckedRecipes]:
    """Check each recipe; the answer is bad news when any has a fault."""
    told = [_checked(path) for path in [recipe_path(wanted) for wanted in asked.recipes]]
    lines = [line for one, shown in told for line in _lines(one, shown)]
    checked = tuple(one for one, _ in told)
    return reply(lines, CheckedRecipes(checked), bad_news=any(not one.ok for one in checked))


@dataclass(frozen=True, slots=True)
class Checked:
    """What was found in one recipe; the names are the JSON's keys."""

    recipe: str  # the file
    ok: bool  # whether it can be forged as it is written
    title: str  # its title; empty when it cannot be read
    steps: int  # how many steps it has
    verdict: PlanState | None  # as `coach plan` gives it; `null` where it cannot be reckoned
    chance: float | None  # of making the drawing
    faults: tuple[Fault, ...]  # what keeps the recipe from being read
    findings: tuple[Finding, ...]  # what the metal cannot do
    warnings: tuple[str, ...]  # what is worth a look before the fire is lit


def _checked(path: Path) -> tuple[Checked, Shown]:
    """One recipe read and weighed, and the units to tell it in."""
    from coach.bench.planned import planned_tool
    from coach.ledger.looking_back import look_back
    from coach.ledger.verdict import PlanState
    from coach.ledger.working import LedgerError
    from coach.recipe.faults import Fault, RecipeFaults
    from coach.recipe.reader import read_recipe_file
    from coach.telling.plan import worth_a_look

    title, steps, shown = "", 0, Shown()
    try:
        recipe = read_recipe_file(path)
        title, steps, shown = recipe.title, len(recipe.steps), Shown(recipe.system)
        plan = planned_tool(look_back(recipe))
        warnings = tuple(write(words, shown) for words in worth_a_look(plan))
    except RecipeFaults as error:
        faults = error.faults
    except LedgerError as error:  # of the recipe as a whole, so it has no better place than the beginning
        faults = (Fault(str(path), 1, 1, error.words),)
    else:
        ok, chance = plan.verdict is not PlanState.OFF_PLAN and not plan.findings, plan.chance
        return Checked(str(path), ok, title, steps, plan.verdict, chance, (), plan.findings, warnings), shown
    return Checked(str(path), False, title, steps, None, None, faults, (), ()), shown


def _lines(checked: Checked, shown: Shown) -> list[str]:
    from coach.ledger.verdict import PlanState
    from coach.telling.why import chance_text

    wrong = [write(fault.words, shown) for fault in checked.faults]
    wrong += [f"{checked.recipe}: {write(finding.sentence, shown)}" for finding in checked.findings]
    stands = "ok"
    if checked.chance is not None and checked.verdict is not PlanState.ON_PLAN:
        stands = f"{checked.verdict}, {chance_text(checked.chance)}"
    ok = f"{checked.recipe}: {stands}, {checked.title}, {counted(checked.steps, 'step')}"
    return [*(wrong or [ok]), *(f"{checked.recipe}: worth a look: {text}" for text in checked.warnings)]
