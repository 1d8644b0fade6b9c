"""`coach plan`: the stock, the marks and the steps of a recipe, to be read or printed."""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING

from coach.cli.opening import recipe_path
from coach.cli.page import WIDTH, paragraph, set_page
from coach.cli.reply import Reply, reply

if TYPE_CHECKING:
    from coach.bench.planned import Planned

SUMMARY = "Show a recipe's stock, marks, lengths to cut, steps and forecast."


def arguments(parser: argparse.ArgumentParser) -> None:
    """What follows the verb."""
    parser.add_argument("recipe", metavar="RECIPE", help="a recipe's name or its file")
    units = parser.add_mutually_exclusive_group()
    units.add_argument("--in", dest="units", action="store_const", const="in", help="the same as --units in")
    units.add_argument("--mm", dest="units", action="store_const", const="mm", help="the same as --units mm")


def run(asked: argparse.Namespace) -> Reply[Planned]:
    """Reckon the recipe through; bad news when it cannot be expected to make its drawing."""
    from coach.bench.planned import planned_tool
    from coach.ledger.looking_back import look_back
    from coach.ledger.verdict import PlanState
    from coach.recipe.reader import read_recipe_file
    from coach.telling.plan import plan_page
    from coach.telling.units import shown_in
    from coach.telling.writing import Shown

    recipe = read_recipe_file(recipe_path(asked.recipe))
    shown = Shown(asked.units) if asked.units else shown_in(recipe)
    plan = planned_tool(look_back(recipe))
    lines = [*paragraph(plan.title), "-" * min(len(plan.title), WIDTH), *set_page(plan_page(plan, shown))]
    return reply(lines, plan, bad_news=plan.verdict is PlanState.OFF_PLAN, shown=shown)
