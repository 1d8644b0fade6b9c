"""`coach amend`: the recipe's file was changed since its job began; the steps ahead follow it when told."""

from __future__ import annotations

from typing import TYPE_CHECKING

from coach.cli.entering import JOB, Entered, answered
from coach.cli.opening import RECIPE, a_job, recipe_path
from coach.cli.page import set_page
from coach.cli.placed import faults_of
from coach.cli.reply import Asked, Reply, reply
from coach.quantities.takes import flag

if TYPE_CHECKING:
    from coach.bench.file_amended import FileAmended

SUMMARY = "Show what a job's changed recipe would change of the steps ahead; with --take, follow it."
TAKES = (
    JOB,
    RECIPE._replace(name="file", help="its recipe as it is now: a file or a name", metavar="FILE"),
    flag("--take", "follow it from the step in hand on; `coach strike` strikes that out again"),
)


def run(asked: Asked) -> Reply[FileAmended] | Reply[Entered]:
    """Tell what is otherwise, or take it; bad news when the job would be off plan by it."""
    from coach.ledger.verdict import PlanState
    from coach.ledger.working import LedgerError
    from coach.recipe.text import file_text
    from coach.telling.file_amended import file_amended_page
    from coach.telling.writing import Shown

    path = recipe_path(asked.file)
    text = file_text(path)
    with a_job(asked) as session:
        try:
            if asked.take:
                return answered(asked, session, [session.amend(text, path.name)])
            told, shown = session.file_changes(text, path.name), Shown(session.system)
        except LedgerError as error:
            raise faults_of(error, text, path.name) from None
    lines = set_page(file_amended_page(told, shown))
    return reply(lines, told, bad_news=told.after.verdict is PlanState.OFF_PLAN)
