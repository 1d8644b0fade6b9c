"""A recipe's text without one of its pieces: it is made no more, and lies there as lengths of its bar."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from coach.forms import listed
from coach.operations.does import Does
from coach.operations.inspect import Inspect
from coach.quantities import Limits
from coach.quantities.errors import did_you_mean
from coach.quantities.refusal import Refusal
from coach.recipe import writing
from coach.recipe.limits_written import limits_text
from coach.recipe.model import Recipe, Step
from coach.recipe.one_bar import cut_off_in, pieces_by_bar
from coach.recipe.remarks import with_remarks
from coach.recipe.spelling import spelt_out


class CannotGiveUp(Refusal):
    """A piece that the others cannot do without, or that there is none of."""


def piece_meant(recipe: Recipe, told: str) -> str:
    """The piece that may be given up under what was typed; raises CannotGiveUp."""
    names = {name.casefold(): name for name in recipe.pieces}
    name = names.get(" ".join(told.casefold().split()), "")
    if not name:
        there = f"the pieces of this job are {listed(recipe.pieces)}."
        raise CannotGiveUp("There is no piece {}: {}", repr(told[:40]), did_you_mean(told, names, there))
    if recipe.pieces[name].given_up:
        raise CannotGiveUp("The {} is given up already.", name)
    made = [one for one in recipe.finished if not recipe.pieces[one].given_up]
    if made == [name] or len(recipe.pieces) == 1:
        raise CannotGiveUp("Without {} nothing is made: set the job aside instead.", name)
    if recipe.pieces[name].branches:
        raise CannotGiveUp("The {} is split into others and cannot be given up by itself.", name)
    if other := next((one for one in recipe.pieces.values() if one.source == name), None):
        raise CannotGiveUp("The {} is taken from {}: give that up first.", other.name, name)
    zones = {*recipe.pieces[name].every_zone}
    for step in recipe.steps:
        met = {*step.metal, *step.holds, *((step.lays,) if step.lays else ())}
        others = {recipe.piece_of(zone).name for zone in met - zones if zone in recipe.drawing}
        if others and met & zones:
            raise CannotGiveUp(
                "The {} goes together with {} in step {}, {}: make it anew, or set the job aside.",
                *(name, listed(sorted(others)), step.number, step.title),
            )
    return name


def may_be_given_up(recipe: Recipe) -> tuple[str, ...]:
    """The pieces that the others can do without."""
    found = []
    for name in recipe.pieces:
        try:
            found.append(piece_meant(recipe, name))
        except CannotGiveUp:
            continue
    return tuple(found)


def stays_to_cut(recipe: Recipe, piece: str, done: int) -> int | None:
    """The step ahead that still cuts a piece off its bar, where another of them lies behind it; else None."""
    cut_in = cut_off_in(recipe, piece)
    names = next((names for names in pieces_by_bar(recipe) if piece in names), [])
    after = names[names.index(piece) + 1 :] if names else []
    behind = [one for one in after if not recipe.pieces[one].given_up]
    if cut_in is None or cut_in <= done or not behind or not recipe.marks_in_row:
        return None
    zones = {*recipe.pieces[piece].zones}
    is_there = any(zones & {*step.zones} for step in recipe.steps[:done])
    return cut_in if is_there else None


def text_without(
    text: str, recipe: Recipe, piece: str, done: int, lies_mm: Mapping[str, float], keep: int | None
) -> str:
    """The text of the recipe once a piece is given up.

    Args:
        text: the job's recipe as it stands, each of its steps in it.
        recipe: the same, as it is worked by now.
        piece: that is given up.
        done: how many steps are.
        lies_mm: how long each of its zones is on its bar.
        keep: the step ahead that still cuts it off that.
    """
    spelt = spelt_out(text, recipe.source)
    of_it = recipe.pieces[piece]
    drawing: dict[str, Any] = dict(spelt["drawing"])
    for zone in of_it.zones:
        drawing[zone] = _of_bar(recipe, of_it.stock.shape.kind, of_it.stock.sizes_mm, lies_mm[zone])
    spelt["drawing"] = drawing
    pieces = {name: dict(told) for name, told in spelt["pieces"].items()}
    pieces[piece]["given_up"] = "yes"
    spelt["pieces"] = pieces
    steps, places = [], []
    for at, (step, told) in enumerate(zip(recipe.steps, spelt["steps"], strict=True)):
        if not is_on(step, of_it.every_zone):
            steps.append(told)
        elif at < done:
            steps.append(told if step.does(Does.MARKS_OUT) else _looked_at(told, step))
        elif step.number == keep:
            steps.append({**{key: one for key, one in told.items() if key not in _OF_DRAWING}, "check": []})
        else:
            continue
        places.append((text, at))
    spelt["steps"] = steps
    return with_remarks(writing.write_recipe(spelt), text, places, {})


#: What a cut is asked for besides, which is of the drawing.
_OF_DRAWING = ("to", "besides", "free", "offcut")


def is_on(step: Step, zones: tuple[str, ...]) -> bool:
    """Whether a step has to do with a piece of these zones, and then with no other."""
    return bool({*step.zones} & {*zones})


def _looked_at(told: Mapping[str, Any], step: Step) -> dict[str, Any]:
    return {"do": Inspect.NAME, "zone": step.zones[0], "title": told.get("title", step.title)}


def _of_bar(recipe: Recipe, kind: str, sizes_mm: Mapping[str, float], long_mm: float) -> dict[str, str]:
    sizes = {name: size for name, size in sizes_mm.items() if name != "length"} | {"length": long_mm}
    written = {name: Limits(size, size, size, stated=False) for name, size in sizes.items()}
    return {
        "form": kind,
        **{name: f"{limits_text(one, recipe.system)} {recipe.system}" for name, one in written.items()},
    }
