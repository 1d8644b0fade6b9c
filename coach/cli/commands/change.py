"""`coach change`: the steps ahead or the drawing are otherwise than the recipe has them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from coach.cli.entering import JOB, Entered, answered
from coach.cli.opening import a_job
from coach.cli.page import set_page
from coach.cli.reply import Asked, Reply, reply
from coach.quantities.takes import Take, Typed, flag

if TYPE_CHECKING:
    from coach.bench.file_amended import FileAmended

SUMMARY = "Show what a change of the steps ahead or of the drawing does to a job; with --take, enter it."
TAKES = (
    JOB,
    Take(
        "what",
        "while it is marked out the bar that lies there (`bar 45 x 20, long 310`), "
        "also later that of a piece that nothing was done to (`bar bit = 50 x 8, long 250`), "
        "a size of the drawing (plate.length=44 ±6), the grade that the steel proves to be (`grade C60`), "
        "`skip 7`, `move 9 before 7`, `next 9`, `put off 7`, "
        "`7 and 8 in one heat`, `again 6`, `heats 7 = 3`, `quench 7 = oil` for the "
        "bath that was really used, of a step that is done too, "
        "`give up hook 2` of a piece that is made no more, "
        "or a step in a recipe's words: `add after 6: straighten: shank, 1 heat`, `step 7: …`; several, each "
        "in quotes; what several pieces have is changed in all of them",
        "CHANGE",
        typed=Typed.SEVERAL,
        needed=True,
    ),
    flag("--take", "go on by it from the step in hand on; `coach strike` strikes that out again"),
)


def run(asked: Asked) -> Reply[FileAmended] | Reply[Entered]:
    """Tell what is otherwise, or take it; bad news when the job would be off plan by it."""
    from coach.drafting.bar_there import change, change_told
    from coach.ledger.verdict import PlanState
    from coach.recipe.lines_of_change import in_one_line
    from coach.telling.file_amended import file_amended_page
    from coach.telling.writing import Shown

    line = in_one_line(asked.what)
    with a_job(asked) as session:
        if asked.take:
            return answered(asked, session, [change(session, line)])
        told, shown = change_told(session, line), Shown(session.system)
    lines = set_page(file_amended_page(told, shown))
    return reply(lines, told, bad_news=told.after.verdict is PlanState.OFF_PLAN)
