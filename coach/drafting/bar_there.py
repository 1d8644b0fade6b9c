"""At the mark-out: a job goes on from the bar that lies there, told in a line as a recipe says a bar."""

from __future__ import annotations

import re
from math import ceil
from typing import Final, NamedTuple

from coach.bench.answer import Answer
from coach.bench.file_amended import FileAmended
from coach.bench.session import Session
from coach.ledger.looking_back import look_back
from coach.ledger.working import LedgerError
from coach.quantities.words import Words, say
from coach.recipe.faults import RecipeFaults
from coach.recipe.model import Piece, Recipe

#: How the line begins: `bar 45 x 20, long 310`, and of several pieces `bar poll = 45 x 20`.
_BAR: Final = re.compile(r"bar\s*(?:[:=]\s*|\s)(?P<there>\S.*)", re.IGNORECASE)
_TOO_LATE: Final = (
    "Another bar can be told while the job is marked out: this one is past that. Set it aside and begin a "
    "new one from the bar that is there."
)

_CANNOT: Final = "From that bar it cannot be: {}"


class _Otherwise(NamedTuple):
    text: str  # of the recipe, from that bar
    title: Words


def change_told(session: Session, line: str) -> FileAmended:
    """What a line changes of a job, another bar or anything else; see `Session.change_told`."""
    other = _from_bar(session, line)
    if other is None:
        return session.change_told(line)
    return session.file_changes(other.text, session.recipe.source, other.title)


def change(session: Session, line: str) -> Answer:
    """Go on as a line says it, from another bar or otherwise; see `Session.change`."""
    other = _from_bar(session, line)
    if other is None:
        return session.change(line)
    return session.amend(other.text, session.recipe.source, other.title)


def bar_line(session: Session) -> str:
    """A line that tells the bar which the job is marked out on now; "" where it is too late for another."""
    if not session.may_take_another_bar:
        return ""
    own = session.recipe.piece_of(session.recipe.steps[0].zones[0])
    piece = session.plan.pieces[own.name]
    if piece.source or piece.stack:
        return ""
    unit = "" if session.recipe.system == "mm" else " mm"  # as its recipe reads a bare number
    sizes = " x ".join(f"{one.value:g}{unit}" for one in piece.stock.sizes)
    section = sizes if piece.stock.form == "flat" else f"{piece.stock.form} {sizes}"
    needed_mm = sum(session.plan.pieces[name].length.value for name in _row_of(session.recipe, own))
    long_mm = piece.bar.value if piece.bar is not None else ceil(needed_mm)
    return f"bar {section}, long {long_mm:g}{unit}"


def _row_of(recipe: Recipe, own: Piece) -> list[str]:
    """The pieces that are marked out on one bar with one, itself among them."""
    row = [piece.name for piece in recipe.pieces.values() if piece.row == own.row and not piece.source]
    return row if recipe.marks_in_row else [own.name]


def asked_of_bar(session: Session) -> str:
    """What is asked as the marking out begins: whether the recipe's bar lies there; "" once it is begun."""
    nothing_yet = session.standing().last_entry <= 1 + len(session.begun_with)
    line = bar_line(session) if nothing_yet else ""
    return (
        f"Does this bar lie there: {line.removeprefix('bar ')}? If it is another, change it" if line else ""
    )


def _from_bar(session: Session, line: str) -> _Otherwise | None:
    """The recipe from the bar that a line tells; None where it tells none. Raises a Refusal."""
    told = " ".join(line.split())
    if (found := _BAR.fullmatch(told)) is None:
        return None
    from coach.drafting.from_bar import from_bars  # with the parser of files, which no bench opens with
    from coach.recipe.changing import CannotChange
    from coach.recipe.reader import read_recipe

    if not session.may_take_another_bar:
        raise CannotChange(_TOO_LATE)
    there = found["there"]
    if "=" not in there and len(session.plan.pieces) > 1:
        there = f"{_only_row(session)}={there}"
    try:
        made = from_bars(session.forged(), session.recipe.source, [there])
        look_back(read_recipe(made.text, session.recipe.source))
    except RecipeFaults as faults:
        raise CannotChange(_CANNOT, faults.faults[0].message) from None
    except LedgerError as error:
        raise CannotChange(_CANNOT, error.words) from None
    return _Otherwise(made.text, say("the bar that lies there: {}", found["there"]))


def _only_row(session: Session) -> str:
    """The piece that a bar is meant for where none is named: that which is marked out now."""
    return session.recipe.piece_of(session.recipe.steps[0].zones[0]).row
