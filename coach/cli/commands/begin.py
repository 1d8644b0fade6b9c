"""`coach begin`: a job begun from a recipe."""

from __future__ import annotations

from coach.cli.entering import Entered, answered
from coach.cli.from_bar import BAR, refuse_what_cannot_be, with_bars
from coach.cli.opening import RECIPE, recipe_path, shop_to_begin_in
from coach.cli.placed import faults_of
from coach.cli.reply import Asked, Refused, Reply
from coach.quantities.takes import Take, flag, plain


def _name(text: str) -> str:
    if not text.strip():
        raise Refused("--name names no job: leave it out, and the job is named like the recipe.")
    return text


SUMMARY = "Begin a job; the recipe is copied into it, so later changes to the file do not touch it."
TAKES = (
    RECIPE,
    Take("--name", "the job's name; without it, it is named like the recipe", "NAME", plain(_name)),
    BAR,
    flag("--anyway", "begin it though the bar cannot make the drawing as the steps are"),
)


def run(asked: Asked) -> Reply[Entered]:
    """Begin the job and say what to do first."""
    from coach.ledger.working import LedgerError
    from coach.recipe.text import file_text

    path = recipe_path(asked.recipe)
    text = file_text(path)
    if asked.bar is not None:
        made = with_bars(text, path.name, asked.bar)
        if not asked.anyway:
            refuse_what_cannot_be(made)
        text = made.recipe.text
    elif asked.anyway:
        raise Refused("--anyway is for a bar that is there: give it with --bar.")
    with shop_to_begin_in(asked) as shop:
        try:
            session = shop.begin(text, path.name, asked.name)
        except LedgerError as error:
            raise faults_of(error, text, path.name) from None
        return answered(asked, session, [session.begun()])
