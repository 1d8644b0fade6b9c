"""`coach begin`: a job begun from a recipe."""

from __future__ import annotations

from typing import TYPE_CHECKING

from coach.cli.entering import Entered, answered
from coach.cli.from_bar import BAR, MAKE, refuse_what_cannot_be, with_bars
from coach.cli.opening import RECIPE, recipe_path, shop_to_begin_in
from coach.cli.page import paragraph
from coach.cli.placed import faults_of
from coach.cli.reply import Asked, Refused, Reply
from coach.quantities.takes import Take, flag, plain

if TYPE_CHECKING:
    from coach.log.kinds.forged_with import ForgedWith


def _name(text: str) -> str:
    if not text.strip():
        raise Refused("--name names no job: leave it out, and the job is named like the recipe.")
    return text


SUMMARY = "Begin a job; the recipe is copied into it, so later changes to the file do not touch it."
TAKES = (
    RECIPE,
    Take("--name", "the job's name; without it, it is named like the recipe", "NAME", plain(_name)),
    BAR,
    Take(
        "--from-rack",
        "take it off a bar of the rack, by its name; alone the one that leaves least over; of several pieces "
        "PIECE=NAME, with ; between",
        "NAME",
        alone="",
    ),
    MAKE,
    Take("--fire", "the fire it is forged in, as you call it: jobs in that fire teach this one", "NAME"),
    Take("--hammer", "the hammer it is forged with, in the same way", "NAME"),
    Take("--at", "when the work began: a time of today, or a day and a time (2026-11-25 14:30)", "TIME"),
    flag("--anyway", "begin it though the bar cannot make the drawing as the steps are"),
)
#: What a shell finishes after a word.
FINISHES = {"--from-rack": "bars"}


def run(asked: Asked) -> Reply[Entered]:
    """Begin the job and say what to do first."""
    from dataclasses import replace

    from coach.bench.answer import Answer
    from coach.bench.rack import NO_CUTS, what_lies_there
    from coach.drafting.bar_there import bar_line
    from coach.drafting.from_rack import taken_from, words_of_taken
    from coach.drafting.make import made_often
    from coach.ledger.working import LedgerError
    from coach.recipe.text import file_text

    path = recipe_path(asked.recipe)
    text = file_text(path)
    if asked.bar is not None and asked.from_rack is not None:
        raise Refused("A bar is told by --bar or taken by --from-rack, not both: leave one out.")
    if asked.make is not None:
        text = made_often(text, asked.make)
    if asked.bar is not None:
        text = _from(text, path.name, asked.bar, anyway=asked.anyway)
    elif asked.make is not None and asked.from_rack is None:
        if not asked.anyway:
            refuse_what_cannot_be(with_bars(text, path.name, ""))
    elif asked.anyway and asked.from_rack is None:
        raise Refused("--anyway is for a bar that is there: give it with --bar or --from-rack.")
    with shop_to_begin_in(asked) as shop:
        taken, cuts = None, NO_CUTS
        if asked.from_rack is not None:
            rack = shop.rack.now()
            taken = taken_from(text, path.name, rack, asked.from_rack)
            text = _from(text, path.name, taken.bars, anyway=asked.anyway)
            cuts = taken.cuts(rack)
        try:
            session = shop.begin(
                text, path.name, asked.name, cuts, _made(asked, shop.forged_with), asked.at or ""
            )
        except LedgerError as error:
            raise faults_of(error, text, path.name) from None
        begun = [session.begun()]
        if taken is not None:
            begun.append(Answer(words_of_taken(taken), 1))
        told = answered(asked, session, begun)
        if taken is None and asked.bar is None and (line := bar_line(session)):
            change = f"If it is another: `coach change {session.job} '{line}' --take` in words of that one."
            there = f"Does this bar lie there: {line.removeprefix('bar ')}? {change}"
            told = replace(told, lines=(*told.lines, *paragraph(there)))
        if (
            taken is None
            and asked.bar is None
            and (hint := what_lies_there(shop.rack.now(as_planned=True), session.recipe))
        ):
            told = replace(
                told,
                lines=(*told.lines, *paragraph(f"{hint} `coach rack --for {path.stem}` tells what suits.")),
            )
        return told


def _made(asked: Asked, set_: ForgedWith) -> ForgedWith:
    """The fire and the hammer: those that are named, else those that are set."""
    named = {name: getattr(asked, name) for name in ("fire", "hammer") if getattr(asked, name) is not None}
    return set_.replaced(**named)


def _from(text: str, source: str, bars: str, *, anyway: bool) -> str:
    made = with_bars(text, source, bars)
    if not anyway:
        refuse_what_cannot_be(made)
    return made.recipe.text
