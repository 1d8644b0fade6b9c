"""At the mark-out: a job goes on from the bar that lies there, told in a line as a recipe says a bar."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import suppress
from math import ceil, sqrt
from typing import Final, NamedTuple

from coach.bench.answer import Answer
from coach.bench.bar_there import read_bar_there, section_of
from coach.bench.file_amended import FileAmended
from coach.bench.session import Session
from coach.ledger.looking_back import look_back
from coach.ledger.working import LedgerError
from coach.quantities.figure import mm
from coach.quantities.refusal import Refusal
from coach.quantities.words import Words, say
from coach.recipe.faults import RecipeFaults
from coach.recipe.model import Piece, Recipe

_TOO_LATE: Final = (
    "Another bar can be told while the job is marked out, or before a piece is begun: the {} is past that. "
    "Set the job aside and begin a new one from the bar that is there."
)

#: A flat bar is asked about whose sides are this nearly alike (judgement).
_ALIKE: Final = 0.85
_TWICE: Final = "{:n} × {} is a flat bar: for a {} measured both ways write bar {} {}, which is as much metal"
_CANNOT: Final = "From that bar it cannot be: {}"


class _Otherwise(NamedTuple):
    text: str  # of the recipe, from that bar
    title: Words
    asked: tuple[Words, ...]  # whether that is the bar which is meant


def change_told(session: Session, line: str) -> FileAmended:
    """What a line changes of a job, another bar or anything else; see `Session.change_told`."""
    other = _from_bar(session, line)
    if other is None:
        return session.change_told(line)
    told = session.file_changes(other.text, session.recipe.source, other.title)
    return told._replace(asked=(*told.asked, *other.asked))


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
    return _line_of(session, session.recipe.piece_of(session.recipe.steps[0].zones[0]))


def bar_still_open(session: Session) -> str:
    """As `bar_line`; later the line of the first piece, by its name, that nothing was done to; or ""."""
    if session.may_take_another_bar:
        return bar_line(session)
    pieces = session.recipe.pieces
    ahead = {zone for step in session.recipe.steps[len(session.standing().done) :] for zone in step.metal}
    left = (
        one for one in pieces.values() if ahead & {*one.every_zone} and not session.is_bar_begun(one.name)
    )
    own = next(left, None)
    return _line_of(session, own, f"{own.row} = ") if own is not None else ""


def _line_of(session: Session, own: Piece, named: str = "") -> str:
    """A line that tells the bar of a piece, with the name of that before it; "" where it has none."""
    piece = session.plan.pieces[own.name]
    if piece.source or piece.stack:
        return ""
    unit = "" if session.recipe.system == "mm" else " mm"  # as its recipe reads a bare number
    sizes = " x ".join(f"{one.value:g}{unit}" for one in piece.stock.sizes)
    section = sizes if piece.stock.form == "flat" else f"{piece.stock.form} {sizes}"
    needed_mm = sum(session.plan.pieces[name].length.value for name in _row_of(session.recipe, own))
    long_mm = piece.bar.value if piece.bar is not None else ceil(needed_mm)
    return f"bar {named}{section}, long {long_mm:g}{unit}"


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
    # With the parser of files, which no bench opens with.
    from coach.recipe.lines_of_change import BAR, refuse_bar_among

    told = " ".join(line.split())
    refuse_bar_among(told)
    if (found := BAR.fullmatch(told)) is None:
        return None
    from coach.drafting.from_bar import from_bars
    from coach.recipe.changing import CannotChange
    from coach.recipe.reader import read_recipe

    there = _with_its_sign(session.recipe, found["there"])
    if "=" not in there and len(session.plan.pieces) > 1:
        there = f"{_only_row(session)}={there}"
    there = _of_the_first(session.recipe, there)
    if begun := next(filter(session.is_bar_begun, _pieces_meant(session.recipe, there)), ""):
        raise CannotChange(_TOO_LATE, begun)
    try:
        made = from_bars(session.forged(), session.recipe.source, [there])
        there_now = read_recipe(made.text, session.recipe.source)
        look_back(there_now)
    except RecipeFaults as faults:
        raise CannotChange(_CANNOT, faults.faults[0].message) from None
    except LedgerError as error:
        raise CannotChange(_CANNOT, error.words) from None
    asked = tuple(_measured_twice(session.recipe, there_now))
    return _Otherwise(made.text, say("the bar that lies there: {}", found["there"]), asked)


def _measured_twice(was: Recipe, now: Recipe) -> Iterator[Words]:
    """Asks of a flat bar nearly as thick as wide whether it is the square or round one of the recipe."""
    for name, piece in now.pieces.items():
        before, stock = was.pieces[name].stock.shape, piece.stock
        one_size = [size for size in was.pieces[name].stock.sizes_mm if size != "length"]
        sides = [side_mm for size, side_mm in stock.sizes_mm.items() if size != "length"]
        if before == stock.shape or len(one_size) != 1 or len(sides) != 2 or min(sides) < _ALIKE * max(sides):
            continue
        same = mm(round(sqrt(sides[0] * sides[1]), 1))
        yield say(_TWICE, mm(max(sides)), mm(min(sides)), before.kind, before.kind, same)


def _of_the_first(recipe: Recipe, there: str) -> str:
    """A line of bars in which what is made several times goes by its first, as `link` by `link 1`."""
    told = []
    for one in there.split(";"):
        name, sign, bar = one.partition("=")
        first = f"{name.strip()} 1"
        is_of_several = sign and name.strip() not in recipe.pieces and first in recipe.pieces
        told.append(f"{first}={bar}" if is_of_several else one)
    return ";".join(told)


def _with_its_sign(recipe: Recipe, there: str) -> str:
    """A bar told behind the name of its piece alone, as `face 40 x 12`, with the = that it wants."""
    if "=" in there:
        return there
    with suppress(Refusal):  # a piece may be called as a form is
        section_of(read_bar_there(there, recipe.system), recipe.system)
        return there
    names = {name for own, piece in recipe.pieces.items() for name in (own, piece.row)}
    names |= {name for own in recipe.pieces if f"{(name := own.rpartition(' ')[0])} 1" in recipe.pieces}
    for name in sorted(names, key=len, reverse=True):  # `hook 1` before `hook`
        if there.casefold().startswith((f"{name} ".casefold(), f"{name}:".casefold())):
            return f"{name} = {there[len(name) :].lstrip(' :')}"
    return there


def _pieces_meant(recipe: Recipe, there: str) -> list[str]:
    """The pieces whose bars a line tells; what it calls none is refused where the bars are read."""
    if "=" not in there:
        return list(recipe.pieces)
    named = {one.partition("=")[0].strip() for one in there.split(";")}
    return [name for name, piece in recipe.pieces.items() if named & {name, piece.row}]


def _only_row(session: Session) -> str:
    """The piece that a bar is meant for where none is named: that which is marked out now."""
    return session.recipe.piece_of(session.recipe.steps[0].zones[0]).row
