"""`coach plan`: the stock, the marks and the steps of a recipe, to be read or printed."""

from __future__ import annotations

from textwrap import indent
from typing import TYPE_CHECKING

from coach.cli.from_bar import BAR, MAKE, with_bars
from coach.cli.opening import RECIPE, recipe_path
from coach.cli.page import WIDTH, paragraph, set_page
from coach.cli.placed import faults_of
from coach.cli.reply import Asked, Refused, Reply, reply
from coach.quantities.takes import flag

if TYPE_CHECKING:
    from pathlib import Path

    from coach.bench.planned import Planned
    from coach.ledger.plan import Plan
    from coach.quantities.units import System
    from coach.telling.plan import Drawings
    from coach.telling.writing import Shown

_INDENT = "    "
_FINISHED_ROWS = 18
SUMMARY = "Show a recipe's stock, marks, lengths to cut, steps and forecast."
TAKES = (RECIPE, BAR, MAKE, flag("--in", "the same as --units in"), flag("--mm", "the same as --units mm"))


def run(asked: Asked) -> Reply[Planned]:
    """Reckon the recipe through; bad news when a check refuses it."""
    from coach.cli.known_here import how_far_it_goes
    from coach.cli.recipe_again import told_again

    if asked.in_ and asked.mm:
        raise Refused("--in and --mm were both given: leave one of them out.")
    path = recipe_path(asked.recipe)
    units: System | None = "in" if asked.in_ else "mm" if asked.mm else asked.units
    of = f"plan in {units} of {asked.bar} x {asked.make}"
    return told_again(asked, of, path, lambda: _reckoned(asked, path, units), how_far_it_goes(asked))


def _reckoned(asked: Asked, path: Path, units: System | None) -> Reply[Planned]:
    from coach.bench.planned import planned_tool
    from coach.cli.known_here import known_here
    from coach.drafting.make import made_often
    from coach.ledger.looking_back import look_back
    from coach.ledger.verdict import PlanState
    from coach.ledger.working import LedgerError
    from coach.recipe.reader import read_recipe_file
    from coach.recipe.text import file_text
    from coach.telling.plan import plan_page
    from coach.telling.writing import Shown

    made = None
    if asked.bar is not None or asked.make is not None:
        text = file_text(path)
        text = text if asked.make is None else made_often(text, asked.make)
        made = with_bars(text, path.name, asked.bar or "", lambda recipe: known_here(asked, recipe))
    recipe = read_recipe_file(path) if made is None else made.recipe
    shown = Shown(units or recipe.system)
    try:
        reckoned = look_back(recipe) if made is None else made.plan
        plan = planned_tool(reckoned, known_here(asked, recipe)) if made is None else made.planned
    except LedgerError as error:
        raise faults_of(error, recipe.text, recipe.source) from None
    told = set_page(plan_page(plan, shown, _drawn(reckoned, plan, shown)))
    lines = [*paragraph(plan.title), "-" * min(len(plan.title), WIDTH), *told]
    refused = plan.verdict is PlanState.OFF_PLAN or bool(plan.findings)
    return reply(lines, plan, bad_news=refused, shown=shown)


def _drawn(reckoned: Plan, plan: Planned, shown: Shown) -> Drawings:
    """Each bar with its marks, and what is left in the end."""
    from coach.drawing.braille import stacked
    from coach.drawing.cells import as_text
    from coach.drawing.job import finished_views, host_pieces
    from coach.drawing.marked_bar import marked_bar
    from coach.telling.plan import Drawings

    room = WIDTH - len(_INDENT)
    bars = {one.piece: as_text(marked_bar(one, room, shown)) for one in plan.pieces}
    finished = {
        piece: as_text(stacked(finished_views(reckoned, piece), (), room, _FINISHED_ROWS, shown=shown))
        for piece in host_pieces(reckoned)
    }
    return Drawings(
        *({name: indent(lines, _INDENT) for name, lines in one.items()} for one in (bars, finished))
    )
