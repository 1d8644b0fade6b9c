"""Words that make something else of a bar's section: twisted, with an edge along it, closed to a ring."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace
from typing import Final

from coach.quantities import Kind, Limits, SizeError
from coach.quantities.units import System
from coach.recipe.limits_written import limits_text
from coach.recipe.line import Line
from coach.recipe.measuring import Size, read_size
from coach.recipe.shape_words import FLAT, TAPER
from coach.recipe.shaped import Shaped
from coach.recipe.sizes import limits_reader
from coach.recipe.spelt import Spelt

_TWISTED: Final = re.compile(r"twisted (?P<turns>\d{1,3}(?:[.,]\d{1,2})?) turns?(?=\s*(?:,|$))")
_OVER: Final = re.compile(r" over (?=\d|at |between )")
_NO_TURNS: Final = re.compile(r"twisted(?![\w-]| (?:bar|taper|\S+ turns?)\b| \d+ turn)")
#: What each bar becomes when it is twisted.
_TWISTS: Final[Mapping[str, str]] = {
    "square": "twisted bar",
    FLAT: "twisted bar",
    TAPER: "twisted taper",
}
_SIDE_BEVEL: Final = "side bevel"
_RING: Final = "ring"


def read_twist(line: Line, shaped: Shaped) -> bool:
    """`twisted 3 turns`, behind the section of a zone; false where it does not stand here."""
    place = line.place()
    if line.take(_NO_TURNS):
        line.findings.add(place, "twisted how often? Write its turns, as in twisted 2 turns")
        line.faulty = True
        line.take_part()
        return True
    if found := line.take(_TWISTED):
        shaped.turns = (float(found["turns"].replace(",", ".")), place)
        if shaped.turns[0] == 0.0:
            line.fault("a twist has some turns, as in twisted 3 turns", found.start("turns"))
    return bool(found)


def read_over(line: Line, shaped: Shaped, name: str) -> None:
    """How far an edge's bevel reaches, where that follows the edge: `edge 2 over 30`."""
    at = line.at
    if name == "edge" and line.take(_OVER):
        if size := read_size(line):
            shaped.put(line, "reach", size, at)
        else:
            line.take_part()


def make_of_bar(shaped: Shaped, spelt: Spelt, unit: str) -> None:
    """Turn a bar into what its words make of it, once all of them are read."""
    if shaped.ring is not None:
        _close(shaped, unit)
    elif shaped.form and shaped.turns is not None:
        _twist(shaped, spelt, unit)
    elif shaped.form and "edge" in shaped.sizes and shaped.form[0] in (FLAT, TAPER):
        _bevel(shaped, spelt)


def _twist(shaped: Shaped, spelt: Spelt, unit: str) -> None:
    assert shaped.form is not None
    assert shaped.turns is not None
    turns, place = shaped.turns
    kind = _TWISTS.get(shaped.form[0])
    if kind is None:
        spelt.findings.add(
            place, f"a {shaped.form[0]} is not twisted: a square, a flat bar or a taper of them is"
        )
        return
    long = _limits("length", shaped.sizes.get("length"), unit)
    if long is None or turns == 0.0:
        if long is None and "length" not in shaped.sizes:
            spelt.findings.add(place, "say how long it is beside its turns, as in long 70, twisted 2 turns")
        return
    if "side" in shaped.sizes:
        shaped.sizes["width"] = shaped.sizes.pop("side")
    turn_mm = long.nominal / turns
    shaped.form = (kind, shaped.form[1])
    told = limits_text(Limits(turn_mm, turn_mm, turn_mm, stated=False), _system(unit))
    shaped.sizes["turn"] = Size(told, place, place)


def _bevel(shaped: Shaped, spelt: Spelt) -> None:
    assert shaped.form is not None
    kind, place = shaped.form
    if kind == TAPER:
        message = "a taper has no edge along its side here: part the zone, or draw it even, as in 36 x 6"
        spelt.findings.add(shaped.sizes["edge"].named_at, message)
        return
    shaped.form = (_SIDE_BEVEL, place)
    shaped.options.setdefault("sides", ("both", place))


def _close(shaped: Shaped, unit: str) -> None:
    """The bar lies flat as it is closed: its width is the ring's wall, unless it stands on its edge."""
    assert shaped.ring is not None
    place, stands = shaped.ring
    shaped.form, shaped.section = (_RING, place), None
    width, thick = shaped.sizes.pop("width", None), shaped.sizes.pop("thickness", None)
    wall, along = (thick, width) if stands else (width, thick)
    if along is not None:
        shaped.sizes["thickness"] = along
    name = next((one for one in ("inside", "inner_diameter") if one in shaped.sizes), None)
    inside = _limits("inner_diameter", shaped.sizes.get(name) if name else None, unit)
    wall_mm = _limits("thickness", wall, unit)
    if inside is None or wall_mm is None or wall is None:
        return
    outside = Limits(
        inside.nominal + 2 * wall_mm.nominal,
        inside.low + 2 * wall_mm.low,
        inside.high + 2 * wall_mm.high,
        stated=inside.stated or wall_mm.stated,
    )
    size = Size(limits_text(outside, _system(unit)), wall.place)
    read = _limits("outer_diameter", size, unit)
    if read is not None and read.low <= inside.nominal:
        # Of a wide hoop of thin bar: with its inside as drawn it would have no wall at all.
        least_mm = inside.nominal + 2 * _least_mm(wall_mm)
        size = Size(limits_text(replace(read, low=least_mm, stated=True), _system(unit)), wall.place)
    shaped.sizes["outer_diameter"] = size


def _least_mm(wall: Limits) -> float:
    return wall.low if 0.0 < wall.low < wall.nominal else wall.nominal / 2.0


def _system(unit: str) -> System:
    return "in" if unit == "in" else "mm"


def _limits(name: str, size: Size | None, unit: str) -> Limits | None:
    """The limits that a size is read with; None where there is none that can be read."""
    try:
        return None if size is None else limits_reader(name, Kind.LENGTH)(size.text, unit)
    except SizeError:
        return None
