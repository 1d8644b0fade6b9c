"""The shape that a recipe gives a zone: its form, its choices and its stations."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from coach.forms import Form, FormError, kinds, said
from coach.forms.bar import Bar
from coach.forms.profile import stations_from_sizes
from coach.operations import Shape
from coach.operations.measures import read_length_or_none
from coach.recipe import words
from coach.recipe.nodes import Node


def option_names() -> frozenset[str]:
    """Every choice that some form offers."""
    return frozenset(name for form in kinds().values() for name in form.OPTIONS)


def bar_kinds() -> tuple[str, ...]:
    """The forms that stock can have: bars with one section along their length."""
    return tuple(kind for kind, form in kinds().items() if issubclass(form, Bar))


def a(kind: str) -> str:
    """A form with its article: an eyed form."""
    return f"{'an' if kind[0] in 'aeiou' else 'a'} {kind} form"


#: What is said where holes are asked of what is bent: the form has no room for both.
NO_HOLES: Final = (
    ": draw it as its bar with the holes in it, pierce that flat, and bend it by radius and angle"
)


def is_bent(kind: str) -> bool:
    """Whether a straight bar is bent or curled to it, and then has no length of its own."""
    return kinds()[kind].unbent is not Form.unbent and "length" not in kinds()[kind].DIMENSIONS


def no_such_size(kind: str, name: str) -> str:
    """The finding for a size that a form has not."""
    known = [said(dimension) for dimension in kinds()[kind].DIMENSIONS]
    return f"{a(kind)} has no {said(name)[:40]}: {words.hint(said(name), known)}"


def shape_told(node: Node, kind: str, kept: Shape | None) -> tuple[Shape | None, Mapping[str, float]]:
    """The shape of a form as a mapping tells its choices and stations, and the sizes its stations give.

    Args:
        node: the mapping that may hold `hole`, `through` or `stations`.
        kind: the form.
        kept: the shape whose choices hold where nothing is said, when it is of the same form.
    """
    form = kinds()[kind]
    before: Mapping[str, str] = kept.options if kept is not None and kept.kind == kind else {}
    options: dict[str, str] = {}
    sound = True
    for name, choices in form.OPTIONS.items():
        options[name] = before.get(name, choices[0])
        if told := node.get(name):
            chosen = told.word(said(name), choices)
            sound = sound and chosen is not None
            options[name] = chosen or options[name]
    for name in sorted(option_names() - set(form.OPTIONS)):
        if told := node.get(name):
            told.stray(f"{a(kind)} has no {said(name)} to choose{NO_HOLES if is_bent(kind) else ''}")
    stations = kept.stations if kept is not None and kept.kind == kind else ()
    sizes: Mapping[str, float] = {}
    told = node.get("stations")
    if told and not form.STATIONS:
        told.stray(f"{a(kind)} is not drawn from stations: a profile is")
    elif told:
        read = read_stations(told)
        if read is None:
            return None, {}
        sizes, stations = read
    elif form.STATIONS and not stations:
        told.missing(f"{a(kind)} needs its sections, as in profile 48 x 24, then 50 x 3 at 120")
        return None, {}
    return (Shape(kind, options, stations) if sound else None), sizes


def read_stations(node: Node) -> tuple[Mapping[str, float], tuple[tuple[float, float, float], ...]] | None:
    """Sizes in mm and shares of the rows of a profile; None with its findings when they do not serve."""
    if not node.is_list:
        node.fault("stations are a list of rows such as [0, 38, 36]: place along, width, thickness")
        return None
    rows: list[tuple[float, float, float]] = []
    sound = True
    for row in node.rows():
        if not isinstance(row.value, list) or len(row.value) != 3:
            row.fault("a station is a row of three: place along, width, thickness")
            sound = False
            continue
        at, width, thickness = (number.in_unit(read_length_or_none) for number in row.rows())
        if at is None or width is None or thickness is None:
            sound = False
        else:
            rows.append((at, width, thickness))
    if not sound:
        return None
    try:
        length, width, thickness, stations = stations_from_sizes(rows)
    except FormError as error:
        node.fault(error.words)
        return None
    return {"length": length, "width": width, "thickness": thickness}, stations
