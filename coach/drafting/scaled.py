"""A recipe so many times as large, written into its own text: all else that it says stays as it was."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from contextlib import suppress
from math import floor
from typing import Any, Final, TypeAlias

from coach.drafting.in_file import Edit, InFile, edited
from coach.drafting.rolled_bars import next_rolled_mm
from coach.forms import kinds
from coach.operations import operations
from coach.quantities import Kind, Limits, SizeError, read_length_mm, read_limits
from coach.quantities.units import System
from coach.recipe.findings import Path
from coach.recipe.limits_written import limits_text, size_text
from coach.recipe.measuring import NUMBER
from coach.recipe.naming import named

#: By definition.
_MM_IN_AN_INCH: Final = 25.4
#: Amounts that are the tool's and not the piece's: a saw takes what it takes.
_AS_THEY_ARE: Final = frozenset({"kerf", "skin", "slit"})
#: Nominal sizes are told to this, limits to a tenth (our choice), mm.
_TO_MM, _FINER_BELOW_MM, _LIMITS_TO_MM = 0.5, 40.0, 0.1
#: Inches are told to this from so many of them on (our choice), mm.
_TO_INCH_MM, _FINER_BELOW_INCH_MM = _MM_IN_AN_INCH / 32, _MM_IN_AN_INCH / 4
#: In a file in inches whole numbers from here on say so themselves (our choice).
_SAY_INCHES_FROM: Final = 10
#: No size may be less than nothing: its low limit lies at most so far below it, as a share (our choice).
_MOST_OFF: Final = 0.8

#: What a bar that is told on its edge is rolled as.
_LIES: Final = {"width": "thickness", "thickness": "width"}
_OUTSIDE: Final = "outer_diameter"
_UNIT: Final = r"(?: ?(?:mm|in|ft)(?![A-Za-z]))?"
_SIZE: Final = rf"(?:\d+ ft {NUMBER} in\b|{NUMBER}{_UNIT})"
_LIMITS: Final = re.compile(
    rf"(?:at least |at most )?{_SIZE}"
    rf"(?: (?:±|\+/-){_SIZE}| \+{_SIZE} -{_SIZE}| at (?:least|most) {_SIZE})?"
)
_RANGE: Final = re.compile(rf"between {_SIZE} and {_SIZE}|{_SIZE} to {_SIZE}")
_HEATS: Final = re.compile(r"\d{1,2} heats?(?![A-Za-z])")
_LOST: Final = re.compile(r"[\d.,]+ ?[a-z%]+")

Changes: TypeAlias = dict[Path, "str | None"]


def scaled_values(spelt: Mapping[str, Any], scale: float, unit: System) -> Changes:
    """What a recipe spelt out says otherwise when it is so many times as large; None of what is left out.

    A bar is the next one that is rolled, and how long the one in hand was is another tool's. Heats that
    move metal are left to be reckoned anew.
    """
    found: Changes = {}
    for name, piece in spelt["pieces"].items():
        for path, bar in _bars(("pieces", name), piece):
            found |= _rolled(path, bar, scale, unit)
    for zone, told in spelt["drawing"].items():
        found |= _sized(("drawing", zone), told, scale, unit)
    for number, step in enumerate(spelt["steps"]):
        found |= _step(("steps", number), step, scale, unit)
    return found | (_for_the_stone(spelt["steps"], scale, unit) if scale < 1.0 else {})


def _for_the_stone(steps: Sequence[Mapping[str, Any]], scale: float, unit: System) -> Changes:
    """What a smaller tool is forged to before it is ground: the fire spoils as deep as of a larger one."""
    found: Changes = {}
    for at, step in enumerate(steps):
        ground = step.get("to")
        if not _takes_the_skin(step) or not isinstance(ground, Mapping):
            continue
        for name, told in ground.items():
            before = [
                (number, one["to"][name])
                for number, one in enumerate(steps[:at])
                if one.get("zone") == step.get("zone") and name in _asked(one) and not _takes_the_skin(one)
            ]
            if not before or not _is_length(name, {}):
                continue
            number, forged = before[-1]
            with suppress(SizeError):
                ground_mm, forged_mm = (limits_of(str(one), unit).nominal for one in (told, forged))
                beyond_mm = forged_mm - ground_mm
                if beyond_mm > 0.0:
                    now_mm = _told(ground_mm * scale, unit) + beyond_mm
                    found[("steps", number, "to", name)] = _about(str(forged), now_mm, scale, unit)
    return found


def _asked(step: Mapping[str, Any]) -> Mapping[str, Any]:
    to = step.get("to")
    return to if isinstance(to, Mapping) else {}


def _takes_the_skin(step: Mapping[str, Any]) -> bool:
    """Whether a step grinds or files."""
    todo = operations()[str(step["do"])]
    return todo.FIXES and "skin" in todo.AMOUNTS


def with_values(spelt: Mapping[str, Any], changes: Changes) -> dict[str, Any]:
    """A recipe spelt out with other values."""

    def at(value: Any, path: Path) -> Any:
        if isinstance(value, Mapping):
            kept = {name: one for name, one in value.items() if changes.get((*path, name), "") is not None}
            return {name: at(one, (*path, name)) for name, one in kept.items()}
        if isinstance(value, list):
            return [at(one, (*path, index)) for index, one in enumerate(value)]
        return changes.get(path, value)

    return dict(at(spelt, ()))


def in_its_text(text: str, source: str, changes: Changes) -> str:
    """The text of a recipe with other values, where they stand; what a zone has of another stands there."""
    file = InFile(text, source)
    edits = (_edit(file, path, value) for path, value in changes.items())
    return edited(text, [one for one in edits if one is not None])


def walls_of_rings(text: str, source: str, changes: Changes, scale: float, unit: System) -> Changes:
    """What is to stand where a ring's bar is told and its outside follows: its wall, so much larger."""
    file = InFile(text, source)
    drawing: Any = file.spelt["drawing"]
    found: Changes = {}
    for path in changes:
        if path[0] != "drawing" or path[-1] != _OUTSIDE:
            continue
        there = _LIMITS.match(text, file.at(path))
        told = drawing[str(path[1])][_OUTSIDE]
        if there and limits_of(there[0], unit).nominal != limits_of(told, unit).nominal:
            found[path] = _times(there[0], scale, unit)
    return found


def _edit(file: InFile, path: Path, value: str | None) -> Edit | None:
    start, text = file.at(path), file.text
    patterns = {"heats": (_HEATS,), "loses": (_LOST,)}.get(str(path[-1]), (_RANGE, _LIMITS))
    in_section = value is not None and " to " not in value
    for pattern in patterns:
        if pattern is _RANGE and in_section and not text.startswith("between", start):
            continue
        if found := pattern.match(text, start):
            if value is not None:
                return Edit(start, found.end(), value)
            named_at = file.at(path, at_key=True)
            before = text.rfind(",", 0, named_at)
            if before < 0 or text[before + 1 : named_at].strip():
                return None
            return Edit(before, found.end(), "")
    return None


def _bars(path: Path, piece: Mapping[str, Any]) -> Iterator[tuple[Path, Mapping[str, Any]]]:
    """The bars that a piece begins as: one, or those of its layers."""
    if isinstance(stock := piece.get("stock"), Mapping):
        yield (*path, "stock"), stock
    for number, layer in enumerate(piece.get("stack", ())):
        yield (*path, "stack", number), layer


def _rolled(path: Path, bar: Mapping[str, Any], scale: float, unit: System) -> Changes:
    found: Changes = {}
    sizes = {name: limits_of(told, unit).nominal for name, told in bar.items() if _is_length(name, {})}
    on_edge = sizes.get("width", 0.0) < sizes.get("thickness", 0.0)  # as a ring is bent of it: its wall first
    for name in bar:
        if name == "length":
            found[(*path, name)] = None
        elif name in sizes:
            lies = _LIES.get(name, name) if on_edge else name
            found[(*path, name)] = _size(next_rolled_mm(lies, sizes[name] * scale, unit), unit)
    return found


def _step(path: Path, step: Mapping[str, Any], scale: float, unit: System) -> Changes:
    todo = operations()[str(step["do"])]
    found: Changes = {}
    for name in ("to", "besides"):
        if isinstance(step.get(name), Mapping):
            found |= _sized((*path, name), step[name], scale, unit, todo.EXTRAS)
    found |= _sized(path, step, scale, unit, todo.EXTRAS)
    heats = step.get("heats")
    if heats not in (None, "0") and not isinstance(heats, Mapping) and todo.RESHAPES:
        found[(*path, "heats")] = None
    loses = str(step.get("loses", ""))
    if loses.endswith((" mm", " in")):
        if scale < 1.0 and _takes_the_skin(step):
            return found  # the fire spoils a smaller one as deep
        found[(*path, "loses")] = f"{_times(loses, scale, unit).removesuffix(' in')} {unit}"
    elif loses.endswith((" g", " kg", " oz", " lb")):
        number, mass = loses.split()
        found[(*path, "loses")] = f"{float(number.replace(',', '.')) * scale**3:.3g} {mass}"
    return found


def _sized(
    path: Path, told: Mapping[str, Any], scale: float, unit: System, extras: Mapping[str, Kind] | None = None
) -> Changes:
    """Every length under a name, so many times as large."""
    found: Changes = {}
    for name, value in told.items():
        if name == "stations":
            for row, sizes in enumerate(value):
                found |= {
                    (*path, name, row, at): _times(str(size), scale, unit)
                    for at, size in enumerate(sizes)
                    if str(size) != "0"
                }
        elif isinstance(value, str) and _is_length(name, extras or {}):
            found[(*path, name)] = _times(value, scale, unit)
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


def limits_of(text: str, unit: System) -> Limits:
    """A size of a file in such a unit, read; raises SizeError."""
    return read_limits(text, lambda size: read_length_mm(size, unit))


def _times(text: str, scale: float, unit: System) -> str:
    """A size with its limits, so many times as large, told as a smith would."""
    try:
        was = limits_of(text, unit)
    except SizeError:
        return text
    return _about(text, _told(was.nominal * scale, unit), scale, unit)


def _about(text: str, nominal: float, scale: float, unit: System) -> str:
    """A size with its limits about another nominal one; raises SizeError."""
    was = limits_of(text, unit)
    if not was.stated:
        return _size(nominal, unit)
    off = max(scale, 1.0)  # no hand is better because the tool is smaller
    low = nominal - min(_finely((was.nominal - was.low) * off, unit), _MOST_OFF * nominal)
    high = nominal + _finely((was.high - was.nominal) * off, unit)
    told = limits_text(Limits(nominal, low, high, stated=True), unit)
    return told.replace(size_text(nominal, unit), _size(nominal, unit), 1)


def about(text: str, nominal_mm: float, unit: System) -> str:
    """A size with the limits it has, about another nominal one; raises SizeError."""
    return _about(text, nominal_mm, 1.0, unit)


def _size(size_mm: float, unit: System) -> str:
    """A nominal size in the unit of the file; inches as a rule has them where it has."""
    inches = size_mm / _MM_IN_AN_INCH
    parts = round(inches * 32)
    if unit == "mm" or abs(inches * 32 - parts) > 1e-6:
        return size_text(size_mm, unit)
    whole, part = divmod(parts, 32)
    below = 32
    while part and part % 2 == 0:
        part, below = part // 2, below // 2
    if not part:
        return f"{whole} in" if whole >= _SAY_INCHES_FROM else f"{whole}"
    return f"{whole} {part}/{below}" if whole else f"{part}/{below}"


def _told(size_mm: float, unit: System) -> float:
    """A size as it is told: to half a millimetre or a tenth, or to a thirty-second of an inch."""
    if unit == "in":
        return size_mm if size_mm < _FINER_BELOW_INCH_MM else _to(size_mm, _TO_INCH_MM)
    return _to(size_mm, _LIMITS_TO_MM if size_mm < _FINER_BELOW_MM else _TO_MM)


def _finely(size_mm: float, unit: System) -> float:
    return _to(size_mm, _LIMITS_TO_MM) if unit == "mm" else size_mm


def _to(size_mm: float, step_mm: float) -> float:
    return floor(round(size_mm / step_mm, 6) + 0.5) * step_mm if size_mm > 2.0 * step_mm else size_mm
