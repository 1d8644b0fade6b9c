"""A recipe like another: so much larger or smaller, or from another bar."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from contextlib import suppress
from typing import Any

from coach.drafting.answers import CannotDraft
from coach.drafting.begun_from import drawn_first
from coach.drafting.draft import no_hotter
from coach.drafting.in_file import Edit, InFile, edited, with_steps
from coach.drafting.made_ready import with_sections
from coach.drafting.made_surer import with_enough_steel, with_surer_draws
from coach.drafting.proposed import SAME_SHARE
from coach.drafting.scaled import in_its_text, scaled_values, walls_of_rings, with_values
from coach.drafting.scaled_together import with_what_goes_together
from coach.operations import operations
from coach.quantities import read_length_mm, read_limits
from coach.quantities.units import System
from coach.recipe import words, writing
from coach.recipe.faults import RecipeFaults
from coach.recipe.findings import Findings
from coach.recipe.line import Line
from coach.recipe.reader import read_recipe
from coach.recipe.remarks import with_remarks
from coach.recipe.spelling import spelt_out
from coach.recipe.spelt import Origins, Spelt
from coach.recipe.zone_lines import spell_bar

#: How much smaller or larger a recipe is made of another (our choice).
_LEAST_SCALE, _MOST_SCALE = 0.2, 5.0


def made_like(text: str, source: str, *, scale: float = 1.0, bar: str = "") -> str:
    """The text of a recipe with its sizes so many times as large, and its first piece from another bar.

    Its remarks, its layout and whatever else it says stay where they can. Heats are left to be reckoned anew.
    Raises CannotDraft for a scale that nobody means, RecipeFaults where the recipe or the bar cannot be read.
    """
    if not _LEAST_SCALE <= scale <= _MOST_SCALE:
        raise CannotDraft(f"A scale from {_LEAST_SCALE:g} to {_MOST_SCALE:g} was expected, such as 1.2.")
    read_recipe(text, source)  # of one with faults they are told, as they stand in its file
    if scale != 1.0:
        text = _scaled(text, source, scale)
    if not bar:
        return text
    spelt = spelt_out(text, source)
    unit: System = "in" if spelt.get("units") == "in" else "mm"
    first = next(iter(spelt["pieces"]))
    row = [name for name, one in spelt["pieces"].items() if name == first or _beside(one) == first]
    now = _from_bars(text, source, {first: spelt_bar(bar, unit)}, row)
    return drawn_first(now, source, _bars_of(spelt["pieces"], row), 1.0)


def _scaled(text: str, source: str, scale: float) -> str:
    """The same recipe larger or smaller, from bars that are rolled."""
    text = text.removeprefix("\ufeff")
    spelt = spelt_out(text, source)
    unit: System = "in" if spelt.get("units") == "in" else "mm"
    changes = with_what_goes_together(spelt, scaled_values(spelt, scale, unit), unit)
    anew = with_values(spelt, changes)
    walls = walls_of_rings(text, source, changes, scale, unit)
    now = in_its_text(text, source, {**changes, **walls})
    with suppress(RecipeFaults):
        told = spelt_out(now, source)["drawing"]
        anew = with_values(anew, {path: told[path[1]].get(path[-1]) for path in walls})
    now = _from_bars(_written(now, text, source, anew), source, {}, list(anew["pieces"]))
    bars = _bars_of(spelt["pieces"], spelt["pieces"])
    now = with_enough_steel(drawn_first(now, source, bars, scale), source)
    return with_surer_draws(now, source, bars, scale)


def _bars_of(pieces: Mapping[str, Mapping[str, Any]], names: Iterable[str]) -> dict[str, Mapping[str, Any]]:
    """The bar of each piece, spelt out, be it another one's; none of what is a stack or comes of it."""
    return {name: bar for name in names if isinstance(bar := _stock(pieces, name), Mapping)}


def _written(text: str, old: str, source: str, anew: dict[str, Any]) -> str:
    """A text that says what it should, or one written anew where it does not."""
    with suppress(RecipeFaults):
        if spelt_out(text, source) == anew:
            return text
    anew.pop("margin", None)
    places = [(old, at) for at in range(len(anew["steps"]))]
    return with_remarks(writing.write_recipe(anew), old, places, {})


def _from_bars(text: str, source: str, bars: Mapping[str, dict[str, Any]], row: Sequence[str]) -> str:
    """The same from other bars: what was left as its bar, and is to be bent of it, is drawn to it."""
    file = InFile(text, source)
    spelt: dict[str, Any] = dict(file.spelt)
    unit: System = "in" if spelt.get("units") == "in" else "mm"
    spelt["pieces"] = {
        name: {**piece, "stock": bars[name]} if name in bars else piece
        for name, piece in spelt["pieces"].items()
    }
    stretches = {name: file.whole(("pieces", name, "stock")) for name in bars}
    now = edited(
        text,
        [Edit(*at, writing.bar_line(bars[name])) for name, at in stretches.items() if at is not None],
    )
    steps = [dict(step) for step in spelt["steps"]]
    places: list[tuple[str, int] | None] = [(text, at) for at in range(len(steps))]
    own = [name for name in row if isinstance(_stock(spelt["pieces"], name), Mapping)]
    for piece in own:
        steps, places = with_draws(piece, spelt["pieces"], spelt["drawing"], steps, places, unit)
    spelt["steps"] = steps
    zones = {zone for piece in own for zone in spelt["pieces"][piece].get("zones", [piece])}
    steps, places = with_sections(spelt, zones, places, unit)
    spelt["steps"] = steps
    with suppress(RecipeFaults):
        now = with_steps(now, source, steps, places)
        read_recipe(now, source)
        if _in_any_order(spelt_out(now, source)) == _in_any_order(spelt):
            return now
    spelt.pop("margin", None)
    return with_remarks(writing.write_recipe(spelt), text, places, {})


def _in_any_order(spelt: Mapping[str, Any]) -> dict[str, Any]:
    """What a recipe says, its steps in an order of their own; a flat is one with its word or without."""
    steps = [
        sorted((name, one) for name, one in step.items() if name != "section" and one != "flat")
        for step in spelt["steps"]
    ]
    return {**spelt, "steps": sorted(map(repr, steps))}


def _stock(pieces: Mapping[str, Mapping[str, Any]], name: str) -> object:
    """The bar that a piece is taken from, be it another one's; nothing of what is a stack or comes of it."""
    stock = pieces[_beside(pieces[name]) or name].get("stock")
    return stock if isinstance(stock, Mapping) and "from" not in stock else None


def with_draws(
    piece: str,
    pieces: Mapping[str, dict[str, Any]],
    drawing: Mapping[str, dict[str, Any]],
    steps: Sequence[dict[str, Any]],
    places: Sequence[tuple[str, int] | None],
    unit: System,
) -> tuple[list[dict[str, Any]], list[tuple[str, int] | None]]:
    """The steps and where each was written, with those that draw what was left as the bar to its section."""
    steps, places = list(steps), list(places)
    stock = pieces[_beside(pieces[piece]) or piece]["stock"]
    drawn = [
        zone for zone in pieces[piece].get("zones", [piece]) if _is_left(zone, drawing, stock, steps, unit)
    ]
    heat = next((step["colour"] for step in steps if "colour" in step and _shapes(step)), "")
    heat = no_hotter(heat, str(pieces[piece].get("metal", "")))
    for zone in reversed(drawn):
        at = _first_worked(piece, pieces[piece].get("zones", [piece]), steps)
        told = {"do": "draw", "zone": zone, "to": words.DRAWING}
        steps.insert(at, told | ({"colour": heat} if heat else {}))
        places.insert(at, None)
    return steps, places


def _first_worked(piece: str, zones: Collection[str], steps: Sequence[Mapping[str, Any]]) -> int:
    """Where the first step stands that works a piece once it is marked, and those of its bar with it."""
    marked = next((n + 1 for n, step in enumerate(steps) if step.get("piece") == piece), 0)
    for at, step in enumerate(steps[marked:], marked):
        heated = step.get("heated")
        if {step.get("zone"), step.get("lay"), *(heated if isinstance(heated, list) else ())} & {*zones}:
            return at
    return marked


def _beside(piece: Mapping[str, Any]) -> str:
    """The piece that this one is taken from one bar with; empty where its bar is its own."""
    stock = piece.get("stock")
    return str(stock.get("beside", "")) if isinstance(stock, Mapping) else ""


def _is_left(
    zone: str,
    drawing: Mapping[str, dict[str, Any]],
    bar: Mapping[str, Any],
    steps: Sequence[Mapping[str, Any]],
    unit: System,
) -> bool:
    """Whether a zone that was left as its bar has another section than the new one, and no step shapes it."""
    drawn = drawing[zone]
    if any(step.get("zone") == zone and _shapes(step) for step in steps):
        return False
    across = [name for name in bar if name in drawn and name not in ("form", "length")]
    return drawn["form"] != bar["form"] or any(
        abs(_nominal_mm(drawn[name], unit) - _nominal_mm(bar[name], unit))
        > SAME_SHARE * _nominal_mm(bar[name], unit)
        for name in across
    )


def _shapes(step: Mapping[str, Any]) -> bool:
    todo = operations()[str(step["do"])]
    return (todo.RESHAPES and not todo.FIXES) or "form" in step  # a bend to a ring makes one of its bar


def _nominal_mm(text: str, unit: System) -> float:
    return read_limits(text, lambda size: read_length_mm(size, unit)).nominal


def spelt_bar(line: str, unit: System) -> dict[str, Any]:
    """A bar in a recipe's words, spelt out; raises CannotDraft where it cannot be read."""
    findings = Findings()
    told = Spelt(("stock",), Origins(), findings)
    spell_bar([Line.of(line, ("stock",), findings, unit)], told)
    if findings.found:
        raise CannotDraft("The bar {}: {}.", f"“{line[:30]}”", findings.found[0].message)
    return told.told
