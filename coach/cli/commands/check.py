"""`coach check`: every fault of a recipe, before any fire is lit."""

from __future__ import annotations

import argparse
from pathlib import Path

from coach.cli.opening import recipe_path
from coach.cli.reply import Reply, reply

SUMMARY = "Read recipes and name every fault: file, line, column, what is wrong."


def arguments(parser: argparse.ArgumentParser) -> None:
    """What follows the verb."""
    parser.add_argument("recipes", metavar="RECIPE", nargs="+", help="a recipe's name or its file")


def run(asked: argparse.Namespace) -> Reply:
    """Check each recipe; the answer is bad news when any has a fault."""
    checked = [_checked(path) for path in [recipe_path(wanted) for wanted in asked.recipes]]
    lines = [line for one in checked for line in _lines(one)]
    return reply(lines, {"recipes": checked}, bad_news=any(not one["ok"] for one in checked))


def _checked(path: Path) -> dict[str, object]:
    """One recipe read and weighed."""
    from coach.bench.plan_view import plan_view
    from coach.bench.shop import shown_in
    from coach.ledger.working import LedgerError
    from coach.recipe.faults import Fault, RecipeFaults
    from coach.recipe.reader import read_recipe_file

    title, steps, warnings = "", 0, tuple[str, ...]()
    faults = tuple[Fault, ...]()
    try:
        recipe = read_recipe_file(path)
        title, steps = recipe.title, len(recipe.steps)
        warnings = plan_view(recipe, shown_in(recipe)).warnings
    except RecipeFaults as error:
        faults = error.faults
    except LedgerError as error:  # of the recipe as a whole, so it has no better place than the beginning
        faults = (Fault(str(path), 1, 1, str(error)),)
    return {
        "recipe": str(path),
        "ok": not faults,
        "title": title,
        "steps": steps,
        "faults": faults,
        "warnings": warnings,
    }


def _lines(checked: dict[str, object]) -> list[str]:
    faults, warnings, name = checked["faults"], checked["warnings"], checked["recipe"]
    assert isinstance(faults, tuple)
    assert isinstance(warnings, tuple)
    if faults:
        return [str(fault) for fault in faults]
    return [
        f"{name}: ok, {checked['title']}, {checked['steps']} steps",
        *(f"{name}: worth a look: {warning}" for warning in warnings),
    ]
