"""Writes the words of a shape as a line says them: a section, a taper, a hole, a profile, a size."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from typing import TypeAlias

from coach.forms import kinds
from coach.forms.holes import SHAPES
from coach.quantities import read_length_mm
from coach.recipe.naming import ALIASES, may_taper, short
from coach.recipe.shape_words import PIERCED, SLOTTED, SQUARE, across, choices_told

Told: TypeAlias = Mapping[str, object]


def shape_parts(told: Told, *, drawn: bool) -> Iterator[str]:
    """The parts of a line that say a form, its choices and its sizes, in the order they are said."""
    form = told.get("form")
    left = {name: limits_written(str(size), name) for name, size in told.items() if is_size(name)}
    if told.get("stations"):
        yield _profile(told["stations"])
        form = None
    elif form == "eyed" and drawn:
        yield from _block(left)
        yield hole_part(told, left)
        form = None
    elif form == PIERCED and "holes" in told and "hole_diameter" in left:
        yield from _block(left)
        yield f"{told['holes']} round holes {left.pop('hole_diameter')}"
        form, told = None, {name: size for name, size in told.items() if name != "holes"}
    elif form == SLOTTED and "holes" in told and {"hole_length", "hole_width"} <= left.keys():
        yield from _block(left)
        long, wide = _take(left, "hole_length", "hole_width")
        shape = told.get("hole", kinds()[SLOTTED].OPTIONS["hole"][0])
        size = (
            f"{SQUARE} holes {long}"
            if long == wide and shape == "rectangle"
            else f"{shape} holes {long} x {wide}"
        )
        yield f"{told['holes']} {size}"
        form, told = None, {name: size for name, size in told.items() if name not in ("holes", "hole")}
    elif form is not None or not drawn:
        section = _section(str(form) if form else None, left, drawn=drawn)
        if section:
            yield section
            form = None
    if form is not None:
        yield str(form)
    for name in choices_told():
        if name in told:
            chosen = str(told[name])
            yield (
                f"on {chosen} side{'' if chosen == 'one' else 's'}" if name == "sides" else f"{name} {chosen}"
            )
    has_hole = not drawn and ("hole" in told or "through" in told)
    if has_hole and "hole_length" not in left:
        yield hole_part(told, left)
        has_hole = False
    for name in list(left):
        if has_hole and name == "hole_length":
            yield hole_part(told, left)
        if name in left:
            yield f"{size_word(name) if drawn or not is_size(size_word(name)) else short(name)} {left[name]}"


def is_size(name: str) -> bool:
    """Whether some form has a size of that name."""
    return any(name in form.DIMENSIONS for form in kinds().values())


def size_word(name: str) -> str:
    """A size's name as a shop says it."""
    return next((word for word, meant in ALIASES.items() if meant == name), short(name))


def _take(left: dict[str, str], *names: str) -> list[str]:
    return [left.pop(name) for name in names]


def _block(left: dict[str, str]) -> Iterator[str]:
    if {"width", "thickness"} <= left.keys():
        yield " x ".join(_take(left, "width", "thickness"))


def _section(form: str | None, left: dict[str, str], *, drawn: bool) -> str:
    """A section, or a taper, at the head of a line; empty where none can be said so."""
    names = list(left)
    if form in across() and across()[form] in left:
        return f"{form} {left.pop(across()[form])}"
    if form == "round ring" and "diameter" in left:
        return f"ring of round {left.pop('diameter')}"
    flat = names[:2] == ["width", "thickness"] if not drawn else {"width", "thickness"} <= left.keys()
    if form == "flat" and flat:
        return " x ".join(_take(left, "width", "thickness"))
    if form == "round taper" and {"diameter", "end_diameter"} <= left.keys():
        return f"round {_to(_take(left, 'diameter'), _take(left, 'end_diameter'))}"
    if form == "taper" and flat:
        if not drawn and names[:4] != ["width", "thickness", "end_width", "end_thickness"]:
            return ""
        ends = {
            name: left.pop(name, left[name.removeprefix("end_")]) for name in ("end_width", "end_thickness")
        }
        across_here, beyond = _take(left, "width", "thickness"), list(ends.values())
        if across_here[0] == across_here[1] and beyond[0] == beyond[1]:
            return f"square {_to(across_here[:1], beyond[:1])}"
        return _to(across_here, beyond)
    return ""


def _to(first: list[str], second: list[str]) -> str:
    rises = len(first) == 1 and _number(second[0]) > _number(first[0])
    return f"{' x '.join(first)} {'tapering to' if rises else 'to'} {' x '.join(second)}"


def _number(text: str) -> float:
    found = re.search(r"[\d./ ]*\d", text)
    return read_length_mm(found[0]) if found else 0.0


def hole_part(told: Told, left: dict[str, str]) -> str:
    """The hole, its mouths taken out of the sizes that are left to be said."""
    drawn = told.get("form") == "eyed"
    shape = told.get("hole") or (SHAPES[0] if drawn else None)
    parts = [f"{shape} hole" if shape else "hole"]
    for far, before in (("", ""), ("far_", " flaring to")):
        names = [f"{far}hole_length", f"{far}hole_width"]
        mouth = [left[name] for name in names if name in left]
        if len(mouth) == 2 or (len(mouth) == 1 and shape == "round" and names[0] in left):
            for name in names:
                left.pop(name, None)
            single = drawn and shape == "round" and mouth[0] == mouth[-1]
            parts.append(f"{before} {mouth[0] if single else ' x '.join(mouth)}")
    if "through" in told:
        parts.append(f" through its {told['through']}")
    elif drawn and shape != "round":
        parts.append(" through its thickness")
    return "".join(parts)


def _profile(stations: object) -> str:
    rows = [[str(size) for size in row] for row in stations] if isinstance(stations, list) else []
    first, *rest = rows
    return ", then ".join(
        [
            f"profile {first[1]} x {first[2]}",
            *(f"{width} x {thickness} at {at}" for at, width, thickness in rest),
        ]
    )


def limits_written(text: str, name: str = "") -> str:
    """Limits as a line says them: `44 at least 40`, and in a section `between 27 and 29`."""
    flat = " ".join(text.replace("+/-", "±").split())
    flat = re.sub(r"\s*±\s*", " ±", flat)
    flat = re.sub(r"\s*, (at (?:least|most))", r" \1", flat)
    if (found := re.fullmatch(r"(.+) to (.+)", flat)) and may_taper(name):
        return f"between {found[1]} and {found[2]}"
    return flat
