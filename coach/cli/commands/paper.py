"""`coach paper`: a recipe or a job as a sheet for the wall of the forge, to be printed and written on."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from coach.cli.masks import mode_for_others
from coach.cli.opening import recipe_path, shop_and_job, shop_path
from coach.cli.page import paragraph
from coach.cli.placed import faults_of
from coach.cli.reply import Asked, Refused, Reply, reply
from coach.cli.writing_out import A_FILE, FORCE, write_out
from coach.quantities.takes import Take, plain

if TYPE_CHECKING:
    from coach.quantities.units import System

_PAPERS = {"a4": "A4", "letter": "letter"}


def _paper(typed: str) -> str:
    found = _PAPERS.get(typed.strip().lower())
    if found is None:
        raise Refused(f"There is no paper {typed[:20]!r} here: type a4 or letter.")
    return found


SUMMARY = "Make a sheet for the wall of the forge: stock, marks, steps, and boxes for what is read."
TAKES = (
    Take("recipe", "a recipe's name or its file", "RECIPE"),
    Take("--job", "instead of a recipe, a job as it stands: what is done, and what is left of it", "JOB"),
    Take(
        "--out",
        "where to write it: a name that ends in .html, to be printed from a browser, or in .pdf",
        "FILE",
        A_FILE,
        needed=True,
    ),
    Take(
        "--paper",
        "of a PDF: a4 or letter; a4 unless said, letter where sizes are in inches",
        "PAPER",
        plain(_paper),
    ),
    FORCE,
)


class Printed(NamedTuple):
    """A sheet for the forge, written to a file."""

    recipe: str  # the recipe's name
    job: str  # the job's name; empty where it is of a recipe
    file: str  # where it is written
    steps: int  # how many are on it to be done


#: What a shell finishes after a word.
FINISHES = {"--paper": "a4 letter"}


def run(asked: Asked) -> Reply[Printed]:
    """Write it."""
    if (asked.recipe is None) == (asked.job is None):
        raise Refused(
            "Which sheet? Name a recipe, as in `coach paper first-hook --out hook.html`, or a job with --job"
            f"{', not both' if asked.job is not None else ''}."
        )
    ending = asked.out.lower().rpartition(".")[2]
    if ending not in ("html", "htm", "pdf"):
        raise Refused(f"{asked.out[:60]!r} ends in neither .html nor .pdf: name a file that does.")
    if asked.paper is not None and ending != "pdf":
        raise Refused("--paper is for a PDF: a browser asks for the paper itself when it prints.")
    return _of_job(asked) if asked.job is not None else _of_recipe(asked)


def _of_recipe(asked: Asked) -> Reply[Printed]:
    from coach.bench.paper import recipe_sheet
    from coach.cli.known_here import known_here
    from coach.ledger.looking_back import look_back
    from coach.ledger.working import LedgerError
    from coach.recipe.reader import read_recipe_file
    from coach.sheets.job_sheet import job_sheet_html
    from coach.telling.writing import Shown

    recipe = read_recipe_file(recipe_path(asked.recipe))
    system = asked.units or recipe.system
    try:
        plan = look_back(recipe)
        sheet = recipe_sheet(plan, known_here(asked, recipe))
    except LedgerError as error:
        raise faults_of(error, recipe.text, recipe.source) from None
    html = job_sheet_html(sheet, plan, Shown(system))
    return _written(asked, html, system, Printed(recipe.name, "", "", len(sheet.steps)))


def _of_job(asked: Asked) -> Reply[Printed]:
    from coach.sheets.job_sheet import job_sheet_html
    from coach.telling.writing import Shown

    with shop_and_job(asked) as (_, session):
        sheet = session.on_paper()
        html = job_sheet_html(sheet, session.plan, Shown(session.system))
        printed = Printed(session.recipe.name, session.job, "", len(sheet.steps))
        return _written(asked, html, session.system, printed)


def _written(asked: Asked, html: str, system: System, printed: Printed) -> Reply[Printed]:
    content: str | bytes = html
    if asked.out.lower().endswith(".pdf"):
        from coach.sheets.pdf import USUAL_PAPER, pdf

        content = pdf(html, asked.paper or USUAL_PAPER[system])
    log, mode = shop_path(asked), mode_for_others()
    path = write_out(asked.out, content, force=asked.force, log=log, mode=mode)
    of = printed.job or printed.recipe
    told = f"The sheet of {of} is written to {path}: print it, and take a pencil to the forge."
    return reply(paragraph(told), printed._replace(file=str(path)))
