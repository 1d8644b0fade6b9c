"""A recipe from the bar that is there, instead of the one that it names."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from contextlib import suppress
from typing import Any, NamedTuple

from coach.bench.bar_there import read_bar_there
from coach.drafting.alike import spelt_bar, with_draws
from coach.drafting.answers import CannotDraft
from coach.drafting.made_ready import with_sections
from coach.forms import listed
from coach.ledger.looking_back import look_back
from coach.ledger.working import LedgerError
from coach.metals.grade import grade
from coach.operations import operation
from coach.quantities.amounts import read_length_mm
from coach.quantities.errors import did_you_mean
from coach.quantities.refusal import Refusal
from coach.quantities.units import System
from coach.recipe import writing
from coach.recipe.alike import Alike
from coach.recipe.faults import RecipeFaults
from coach.recipe.findings import Findings
from coach.recipe.in_place import edited, without_heats
from coach.recipe.reader import read_recipe
from coach.recipe.remarks import with_remarks
from coach.recipe.spelling import spelt_out
from coach.recipe.tree import read_plain

#: A bar as its own line of a file has it.
_BAR_LINE = re.compile(r"(?P<key>\s*bar:\s+)(?P<bar>[^#\n]*[^#\s])(?P<after>\s*(?:#.*)?)$", re.DOTALL)


class FromBars(NamedTuple):
    """A recipe written anew from other bars."""

    text: str
    steps: tuple[int, ...]  # for each of its steps the number of the one that it was before; 0 of a new one


def from_bars(text: str, source: str, bars: Sequence[str]) -> FromBars:
    """A recipe with other bars, each in a recipe's words, of several pieces as PIECE=BAR.

    What is made several times goes by the name that it is written under, and all of them are taken from that
    bar. The heats that first shape a zone are reckoned anew where the bar has another section: no fewer than
    the recipe says where more work is reckoned of them than from its own bar, no more where less is. Marks
    and lengths follow by themselves. Raises CannotDraft for a piece that there is not and for a bar that
    cannot be read, RecipeFaults where the recipe cannot.
    """
    read_recipe(text, source)  # of one with faults they are told, as they stand in its file
    spelt = spelt_out(text, source)
    unit: System = "in" if spelt.get("units") == "in" else "mm"
    pieces = {name: dict(piece) for name, piece in spelt["pieces"].items()}
    steps = [dict(step) for step in spelt["steps"]]
    places: list[tuple[str, int] | None] = [(text, at) for at in range(len(steps))]
    rows = _rows(text, source, pieces)
    changed: set[str] = set()
    for told in bars:
        row, line = of_row(told, rows)
        was = pieces[row[0]].get("stock")
        metal, bar = _bar_there(line, unit, str(pieces[row[0]].get("metal", "")))
        pieces[row[0]]["stock"] = _turned_as(was, bar, unit)
        for piece in row if metal else ():
            pieces[piece]["metal"] = metal
        if _section(was, unit) == _section(pieces[row[0]]["stock"], unit):
            continue  # it is the recipe's own, of whatever length: the work on it is what it was
        for piece in row:
            changed |= set(pieces[piece].get("zones", [piece]))
            steps, places = with_draws(piece, pieces, spelt["drawing"], steps, places, unit)
    spelt |= {"pieces": pieces, "steps": steps}
    steps, places = with_sections(spelt, changed, places, unit)
    steps, said = _heats_anew(steps, changed)
    spelt |= {"steps": steps}
    _hold_to_what_was_said(spelt, said, text, source, places)
    numbers = tuple(0 if place is None else place[1] + 1 for place in places)
    anew = with_remarks(writing.write_recipe(spelt), text, places, {})
    return FromBars(_in_its_place(text, anew, source), numbers)


def _in_its_place(text: str, anew: str, source: str) -> str:
    """The text as it stands with its one line of a bar changed, and the heats that follow from its section.

    It is written anew where that reads otherwise.
    """
    lines, now = text.splitlines(keepends=True), anew.splitlines()
    there = [at for at, line in enumerate(lines) if _BAR_LINE.match(line)]
    bars = [line for line in now if _BAR_LINE.match(line)]
    if len(there) != 1 or len(bars) != 1:
        return anew
    was = _BAR_LINE.match(lines[there[0]])
    becomes = _BAR_LINE.match(bars[0])
    assert was is not None
    assert becomes is not None
    lines[there[0]] = f"{was['key']}{becomes['bar']}{was['after']}"
    tried, wanted = "".join(lines), read_recipe(anew, source)._replace(text="")
    with suppress(Refusal, RecipeFaults):  # what follows from the bar stands elsewhere too
        before, after = read_recipe(tried, source).steps, wanted.steps
        for step, then in zip(before, after, strict=False) if len(before) == len(after) else ():
            if step.heats_said and not then.heats_said:
                tried = without_heats(tried, source, step.number)
            elif step.heats != then.heats:
                tried = edited(tried, source, f"heats {step.number} = {then.heats}")
        if read_recipe(tried, source)._replace(text="") == wanted:
            return tried
    return anew


def _bar_there(line: str, unit: System, usual: str) -> tuple[str, dict[str, Any]]:
    """The grade of a line, where it is another than usual, and its spelt bar; a weight makes its length."""
    there = read_bar_there(line, unit, usual)
    told = there.section
    if there.length_mm is not None:
        told += f", long {there.length_mm:.4f}".rstrip("0").rstrip(".") + " mm"
    metal = there.metal if there.metal != _grade_of(usual) else ""
    return metal, spelt_bar(told, unit)


def _grade_of(name: str) -> str:
    with suppress(Refusal):
        return grade(name).name
    return name


def _turned_as(was: object, bar: dict[str, Any], unit: System) -> dict[str, Any]:
    """A flat bar laid as the recipe's lay: a bar has no width before it is turned."""
    own = was if isinstance(was, Mapping) else {}
    if bar.get("form") != "flat" or own.get("form") != "flat":
        return bar
    swapped = bar | {"width": bar["thickness"], "thickness": bar["width"]}
    return swapped if _section(swapped, unit) == _section(own, unit) else bar


def _section(stock: object, unit: System) -> dict[str, str | float]:
    """A bar without its length, its sizes in mm, in whichever units they are told."""
    rows = stock if isinstance(stock, Mapping) else {}
    found: dict[str, str | float] = {}
    for name, told in rows.items():
        if name != "length":
            found[str(name)] = str(told)
            with suppress(Refusal):
                found[str(name)] = round(read_length_mm(str(told), unit), 4)
    return found


def rows_of(text: str, source: str) -> dict[str, list[str]]:
    """The pieces of a recipe that have a bar of their own, each with those that are taken from it besides.

    By the name that the file has for them. Raises RecipeFaults.
    """
    read_recipe(text, source)
    spelt = spelt_out(text, source)
    return _rows(text, source, {name: dict(piece) for name, piece in spelt["pieces"].items()})


def _rows(text: str, source: str, pieces: Mapping[str, Mapping[str, Any]]) -> dict[str, list[str]]:
    """The pieces that are taken from one bar together, by the name that the file has for them."""
    found: dict[str, list[str]] = {}
    written = {one.name: one for one in Alike.of(read_plain(text, source).tree, Findings()).pieces}
    for name, piece in pieces.items():
        stock = piece.get("stock")
        if not isinstance(stock, Mapping) or "from" in stock:
            continue
        first = str(stock.get("beside", name))
        own = written[first].written if written[first].written == written[name].written else first
        found.setdefault(own, []).append(name)
    return found


def of_row(told: str, rows: Mapping[str, list[str]]) -> tuple[list[str], str]:
    """The pieces and the bar that a word of the shell names; one of several alike stands for all."""
    name, equals, line = told.partition("=")
    if not equals:
        if len(rows) > 1:
            first = next(iter(rows))
            raise CannotDraft(
                f"This recipe is made of {listed(rows)}: say which one the bar is for, such as "
                f"{first}={told[:30]}."
            )
        name, line = next(iter(rows)), told
    name = name.strip()
    row = rows.get(name) or next((one for one in rows.values() if name in one), None)
    if row is None:
        hint = did_you_mean(name, rows, f"it has {listed(rows)}.")
        raise CannotDraft(f"No piece of this recipe is called {name[:30]!r}: {hint}")
    return row, line.strip()


def _heats_anew(steps: list[dict[str, Any]], zones: set[str]) -> tuple[list[dict[str, Any]], dict[int, int]]:
    """The steps, without the heats that were said of the first work on each of the zones; those, by place."""
    said: dict[int, int] = {}
    for at, step in enumerate(steps):
        worked = zones & set(step["zone"] if isinstance(step.get("zone"), list) else [step.get("zone")])
        todo = operation(str(step["do"]))
        if worked and todo.RESHAPES and not todo.FIXES:
            if step.get("heats") not in (None, "0", 0):
                heats = str(step.pop("heats"))
                said |= {at: int(heats)} if heats.isdecimal() else {}
            zones -= worked
    return steps, said


def _hold_to_what_was_said(
    spelt: Mapping[str, Any],
    said: Mapping[int, int],
    text: str,
    source: str,
    places: Sequence[tuple[str, int] | None],
) -> None:
    """Put the heats back that a recipe says, where those reckoned from another bar go against its work.

    A recipe may say more heats than are reckoned from its own bar, or fewer: more work does not need fewer
    than it says, nor less work more.
    """
    own = spelt_out(text, source)
    before = {at: place[1] for at in said if (place := places[at]) is not None}
    own |= {"steps": [dict(step) for step in own["steps"]]}
    for at in before.values():
        own["steps"][at].pop("heats", None)
    from_own, from_other = (_reckoned(tree, source) for tree in (own, spelt))
    if not from_own or not from_other:
        return
    for at, was_at in before.items():
        was, now = from_own[was_at], from_other[at]
        heats = _as_many(said[at], was, now)
        if heats != now.heats:
            spelt["steps"][at]["heats"] = heats


def _as_many(said: int, was: _Reckoned, now: _Reckoned) -> int:
    """The heats that a recipe says, for the work that another bar makes of it.

    In the share of what is reckoned of both, by their heats or by their sections, or what is reckoned of the
    other bar: whichever is nearer.
    """
    if not (was.heats and was.section_mm2):
        return max(said, now.heats)
    shares = now.heats / was.heats, now.section_mm2 / was.section_mm2
    if now >= was:  # by its heats; where those are as many, by the bar's section
        return max(said, min(now.heats, round(said * max(shares))))
    return min(said, max(now.heats, round(said * min(shares))))


class _Reckoned(NamedTuple):
    """A step's heats, as they are reckoned where none are said, and the section of the bar that it works."""

    heats: int
    section_mm2: float


def _reckoned(spelt: Mapping[str, Any], source: str) -> tuple[_Reckoned, ...]:
    """Each step; none where the metal account cannot go on."""
    try:
        recipe = read_recipe(writing.write_recipe(spelt), source)
        plan = look_back(recipe)
    except (LedgerError, RecipeFaults):  # which is told where the recipe is planned
        return ()
    rows = (row for piece in plan.pieces.values() for row in piece.zones)
    sections = {row.zone: row.volume.value / row.length.value for row in rows}
    return tuple(
        _Reckoned(step.heats, sum(sections.get(zone, 0.0) for zone in step.zones[:1]))
        for step in plan.recipe.steps
    )
