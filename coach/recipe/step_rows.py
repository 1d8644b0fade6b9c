"""The steps as the file has them, each once: what is done in each, and in what order on pieces made alike."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from functools import cache
from typing import NamedTuple

from coach.forms import listed
from coach.operations import Operation, also_called, operations
from coach.operations.does import Does, Scope
from coach.recipe import words
from coach.recipe.alike import Alike
from coach.recipe.findings import Findings, Offset, Path
from coach.recipe.keys import JOIN, STEP


class StepRow(NamedTuple):
    """One step as it is written."""

    row: Mapping[str, object]
    path: Path
    key: str  # that its operation stands under
    todo: Operation
    worked: str  # what the operation is done to, with whatever stands behind it
    pieces: tuple[str, ...] = (
        "",
    )  # those made alike that it is done on in turn; one without a name of others
    family: str = ""  # what those are called together
    cuts_off: bool = False  # whether it cuts the end of each off the rest of its bar


class Turn(NamedTuple):
    """A row of the file on some of the pieces that it is done on."""

    at: int  # the row, from 0
    who: tuple[int, ...]


@cache
def operation_words() -> Mapping[str, Operation]:
    """Every operation by its key in a step."""
    return {words.key(name): todo for name, todo in operations().items()}


class Drawn(NamedTuple):
    """What is known of the zones before the first step."""

    forms: Mapping[str, object]  # the drawn one of each
    along: Mapping[str, tuple[str, ...]]  # those along the bar of each piece


def read_row(row: object, number: int, alike: Alike, drawn: Drawn, findings: Findings) -> StepRow | None:
    """A step as it is written; None, with a finding where it is one, where nothing can be made of it."""
    path: Path = ("steps", number)
    if not isinstance(row, dict):
        return None
    known: Mapping[str, Operation | None] = {**operation_words(), JOIN: None}
    named = [key for key in row if key in known]
    if not named:
        if row.keys() <= STEP.keys.keys():  # otherwise the table of keys tells which is none
            first = words.word(next(iter(row), ""))
            meant = also_called().get(first)
            how = f"to {first} is {listed(meant, 'or')} here: " if meant else ""
            example = (
                f"{meant[0]}: {row[first]}" if meant and isinstance(row.get(first), str) else "draw: shank"
            )
            findings.add(path, f"{how}a step begins with its operation and its zone, such as {example}")
        return None
    for more in named[1:]:
        message = f"a second operation in one step: a dash is missing before {words.word(more)}"
        findings.add((*path, more), message, at_key=True)
    text = row[named[0]]
    if not isinstance(text, str):
        findings.add((*path, named[0]), "the zone belongs here, and its sizes behind a comma")
        return None
    todo, worked = known[named[0]], text
    if todo is None:
        worked = text.partition(",")[0].rpartition(" by ")[2].strip()
        todo = _fastens(worked, text, (*path, named[0]), alike, drawn.forms, findings)
    if todo is None:
        return None
    found = StepRow(row, path, named[0], todo, worked)
    family = alike.family(worked)
    if not family:
        return found
    return found._replace(
        pieces=tuple(one[family] for one in alike.families[family]),
        family=family,
        cuts_off=Does.CUTS_FREE in todo.DOES and alike.is_last_zone(worked, drawn.along),
    )


def _fastens(
    zone: str, text: str, place: Path, alike: Alike, forms: Mapping[str, object], findings: Findings
) -> Operation | None:
    """What is done to the rivet, tenon or collar that joins; None, with a fault, where none is named."""
    if " by " not in text:
        findings.add(place, "by what? Write the zone of the rivet, the tenon or the collar behind by")
        return None
    own = alike.families[zone][0][zone] if zone in alike.families else zone
    makers = {todo.FORM: todo for todo in operations().values() if Does.FASTENS in todo.DOES}
    found = makers.get(str(forms.get(own)))
    if found is None:
        at = (*place, Offset(text.index(" by ") + len(" by ")))
        if own in forms and forms[own] is None:  # its own line is told of
            return None
        if own in forms:
            message = f"{zone} joins nothing: what joins is drawn as {listed(sorted(map(str, makers)), 'or')}"
        else:
            found_in = {name: name for name, form in forms.items() if form in makers}
            several = {rows[0][name]: name for name, rows in alike.families.items() if name in rows[0]}
            hint = words.hint(zone, dict.fromkeys(several.get(name, name) for name in found_in))
            if not found_in:
                hint = f"none is drawn as {listed(sorted(map(str, makers)), 'or')}, which is what joins"
            message = f"there is no zone {words.echo(zone)} to join them by: {hint}"
        findings.add(at, message)
    return found


def refuse_done_for_all(rows: Sequence[StepRow | None], alike: Alike, findings: Findings) -> None:
    """What is done to the whole of one of several alike, and was done before to all of them in turn."""
    done: dict[tuple[str, str], StepRow] = {}  # by the operation and the piece
    for row in rows:
        if row is None or row.todo.SCOPE is not Scope.PIECE:
            continue
        piece = row.worked.partition(",")[0].strip()
        if row.family == piece:
            done |= {(row.todo.NAME, one): row for one in row.pieces if one != piece}
        elif first := done.get((row.todo.NAME, piece)):
            family = f"{row.todo.NAME}: {first.family}"
            message = f"{family} is done on {piece} too, which is like it: leave this step out"
            findings.add((*row.path, row.key), message, at_key=True)


# ── the order ───────────────────────────────────────────────────────────────────────────────────────


def turns(rows: Sequence[StepRow | None], alike: Alike) -> Iterator[Turn]:
    """The rows in the order that they can be forged in, each with the piece that it is done on.

    A row is done on each of several pieces in turn. Pieces of one bar that is their handle until a late step
    cuts them off are forged one after another: the next one's end lies inside the bar until the one before it
    is cut off. So all that is done from the first work on such a piece to its cut is done on one of them, and
    then on the next; they are marked out before, in one row.
    """
    whole = [Turn(at, tuple(range(len(row.pieces) if row else 1))) for at, row in enumerate(rows)]
    yield from _in_order(whole, rows, alike)


def _in_order(todo: Sequence[Turn], rows: Sequence[StepRow | None], alike: Alike) -> Iterator[Turn]:
    block = _first_block(todo, rows, alike)
    if block is None:
        for turn in todo:
            yield from (Turn(turn.at, (who,)) for who in turn.who)
        return
    first, behind, lead = block
    yield from _in_order(todo[:first], rows, alike)
    count = max(len(turn.who) for turn in todo[first:behind] if _family(rows, turn) == lead)
    marked: set[str] = set()
    shares: list[list[Turn]] = [[] for _ in range(count)]
    for turn in todo[first:behind]:
        row = rows[turn.at]
        once = row is not None and row.family != lead and Does.MARKS_OUT in row.todo.DOES
        once = once and row is not None and row.family not in marked
        marked |= {_family(rows, turn)}
        for number, who in enumerate(_shared_out(turn, row, count, once=once)):
            shares[number] += [Turn(turn.at, who)] if who else []
    for share in shares:
        yield from _in_order(share, rows, alike)
    yield from _in_order(todo[behind:], rows, alike)


def _family(rows: Sequence[StepRow | None], turn: Turn) -> str:
    row = rows[turn.at]
    return row.family if row is not None else ""


def _first_block(
    todo: Sequence[Turn], rows: Sequence[StepRow | None], alike: Alike
) -> tuple[int, int, str] | None:
    """From where to where the pieces of a family are forged one after another, and its name."""
    begun: dict[str, int] = {}
    found: dict[str, tuple[int, int]] = {}
    for place, turn in enumerate(todo):
        row = rows[turn.at]
        if row is None or len(turn.who) == 1 or row.family not in alike.of_one_bar:
            continue
        if row.cuts_off:  # without work before it, they are cut apart first
            found.setdefault(row.family, (begun.get(row.family, place), place + 1))
        elif Does.MARKS_OUT not in row.todo.DOES:
            begun.setdefault(row.family, place)
    found = {family: (first, behind) for family, (first, behind) in found.items() if behind - first > 1}
    if not found:
        return None
    lead = min(found, key=lambda name: found[name])
    first, behind = found[lead]
    for start, end in sorted(found.values()):  # what reaches beyond it is done with it
        if start < behind:
            behind = max(behind, end)
    return first, behind, lead


def _shared_out(turn: Turn, row: StepRow | None, count: int, *, once: bool) -> list[tuple[int, ...]]:
    """Which of the pieces of a row belong to each of so many that are forged one after another."""
    shares: list[tuple[int, ...]] = [()] * count
    if once or row is None or not row.family:
        shares[0] = turn.who
        return shares
    kinds: dict[str, list[int]] = {}
    for who in turn.who:  # of pieces that are like another, some of each
        kinds.setdefault(row.pieces[who].rstrip("0123456789 "), []).append(who)
    for kind in kinds.values():
        for number, who in enumerate(kind):
            shares[number * count // len(kind)] += (who,)
    return shares
