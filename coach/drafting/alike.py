"""A recipe like another: so much larger or smaller, or from another bar."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any, Final

from coach.drafting.answers import CannotDraft
from coach.drafting.made_ready import with_sections
from coach.forms import kinds
from coach.operations import operations
from coach.quantities import Kind, Limits, SizeError, read_length_mm, read_limits
from coach.quantities.units import System
from coach.recipe import words, writing
from coach.recipe.findings import Findings
from coach.recipe.limits_written import limits_text, size_text
from coach.recipe.line import Line
from coach.recipe.naming import named
from coach.recipe.reader import read_recipe
from coach.recipe.remarks import with_remarks
from coach.recipe.spelling import spelt_out
from coach.recipe.spelt import Origins, Spelt
from coach.recipe.zone_lines import spell_bar

#: Amounts that are the tool's and not the piece's: a saw takes what it takes.
_AS_THEY_ARE: Final = frozenset({"kerf", "skin", "slit"})
#: Nominal sizes are told to this, limits to a tenth (our choice), mm.
_TO_MM, _FINER_BELOW_MM, _LIMITS_TO_MM = 0.5, 40.0, 0.1
#: A section this much beside that of its bar is worked to its drawing (judgement).
_SAME_SHARE: Final = 0.03
#: No size may be less than nothing: its low limit lies at most so far below it, as a share (our choice).
_MOST_OFF: Final = 0.8
_LEAST_SCALE, _MOST_SCALE = 0.2, 5.0


def made_like(text: str, source: str, *, scale: float = 1.0, bar: str = "", title: str = "") -> str:
    """The text of a recipe with its sizes so many times as large, and its first piece from another bar.

    Heats are left to be reckoned anew, and allowances to be set. Raises CannotDraft for a scale that nobody
    means, RecipeFaults where the recipe or the bar cannot be read.
    """
    if not _LEAST_SCALE <= scale <= _MOST_SCALE:
        raise CannotDraft(f"A scale from {_LEAST_SCALE:g} to {_MOST_SCALE:g} was expected, such as 1.2.")
    read_recipe(text, source)  # of one with faults they are told, as they stand in its file
    spelt = spelt_out(text, source)
    unit: System = "in" if spelt.get("units") == "in" else "mm"
    steps = [_step(dict(step), scale, unit) for step in spelt["steps"]]
    drawing = {zone: _sized(told, scale, unit) for zone, told in spelt["drawing"].items()}
    pieces = {name: _piece(dict(piece), scale, unit) for name, piece in spelt["pieces"].items()}
    places: list[tuple[str, int] | None] = [(text, at) for at in range(len(steps))]
    spelt |= {"drawing": drawing, "pieces": pieces, "title": title or spelt["title"]}
    if bar:
        first = next(iter(pieces))
        pieces[first]["stock"] = spelt_bar(bar, unit)
        row = [name for name, one in pieces.items() if name == first or _beside(one) == first]
        for piece in row:
            steps, places = with_draws(piece, pieces, drawing, steps, places, unit)
        spelt["steps"] = steps
        zones = {zone for piece in row for zone in pieces[piece].get("zones", [piece])}
        steps, places = with_sections(spelt, zones, places, unit)
    spelt["steps"] = steps
    spelt.pop("margin", None)
    return with_remarks(writing.write_recipe(spelt), text, places, {})


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
    for zone in reversed(drawn):
        at = next((n + 1 for n, step in enumerate(steps) if step.get("piece") == piece), 0)
        told = {"do": "draw", "zone": zone, "to": words.DRAWING}
        steps.insert(at, told | ({"colour": heat} if heat else {}))
        places.insert(at, None)
    return steps, places


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
        > _SAME_SHARE * _nominal_mm(bar[name], unit)
        for name in across
    )


def _shapes(step: Mapping[str, Any]) -> bool:
    todo = operations()[str(step["do"])]
    return todo.RESHAPES and not todo.FIXES


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


def _piece(piece: dict[str, Any], scale: float, unit: System) -> dict[str, Any]:
    if isinstance(piece.get("stock"), Mapping):
        piece["stock"] = _sized(piece["stock"], scale, unit)
    return piece


def _step(step: dict[str, Any], scale: float, unit: System) -> dict[str, Any]:
    todo = operations()[str(step["do"])]
    for name in ("to", "besides"):
        if isinstance(step.get(name), Mapping):
            step[name] = _sized(step[name], scale, unit, todo.EXTRAS)
    step = _sized(step, scale, unit, todo.EXTRAS)
    if scale == 1.0:
        return step
    heats = step.get("heats")
    if heats != "0" and not isinstance(heats, Mapping) and todo.RESHAPES:
        step.pop("heats", None)  # reckoned anew from the work
    loses = str(step.get("loses", ""))
    if loses.endswith((" mm", " in")):
        step["loses"] = f"{_times(loses, scale, unit)} {unit}"
    elif loses.endswith((" g", " kg", " oz", " lb")):
        number, mass = loses.split()
        step["loses"] = f"{float(number.replace(',', '.')) * scale**3:.3g} {mass}"
    return step


def _sized(
    told: Mapping[str, Any], scale: float, unit: System, extras: Mapping[str, Kind] | None = None
) -> dict[str, Any]:
    """Names with values of which every length is so many times as large."""
    if scale == 1.0:
        return dict(told)
    found = dict(told)
    for name, value in told.items():
        if name == "stations":
            found[name] = [[_times(str(one), scale, unit) for one in row] for row in value]
        elif isinstance(value, str) and _is_length(name, extras or {}):
            found[name] = _times(value, scale, unit)
    return found


def _is_length(name: str, extras: Mapping[str, Kind]) -> bool:
    if name in _AS_THEY_ARE:
        return False
    if name in extras:
        return extras[name] is Kind.LENGTH
    if any(name in form.DIMENSIONS for form in kinds().values()):
        return True
    meant = next((one for one in named().values() if one.name == name), None)
    return name == "remains" or (meant is not None and meant.kind is Kind.LENGTH)


def _times(text: str, scale: float, unit: System) -> str:
    """A size with its limits, so many times as large, told as a smith would."""
    try:
        was = read_limits(text, lambda size: read_length_mm(size, unit))
    except SizeError:
        return text
    finely = was.nominal * scale < _FINER_BELOW_MM
    nominal = _told(was.nominal * scale, _LIMITS_TO_MM if finely else _TO_MM, unit)
    off = max(scale, 1.0)  # no hand is better because the tool is smaller
    low = nominal - min(_told((was.nominal - was.low) * off, _LIMITS_TO_MM, unit), _MOST_OFF * nominal)
    high = nominal + _told((was.high - was.nominal) * off, _LIMITS_TO_MM, unit)
    if not was.stated:
        return size_text(nominal, unit)
    return limits_text(Limits(nominal, low, high, stated=True), unit)


def _told(size_mm: float, to_mm: float, unit: System) -> float:
    return round(size_mm / to_mm) * to_mm if unit == "mm" and size_mm > 2.0 * to_mm else size_mm
