"""What the scale of the heats to come takes off a size, and how much fuller it is worked for that."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from math import isinf
from typing import Final, NamedTuple

from coach.forms import form_kind
from coach.ledger.branching import CUT_ACROSS, branch_of, slit_of
from coach.ledger.nominal import LEFT_ACROSS, MORE_ACROSS, kept_by
from coach.ledger.working import (
    ZoneState,
    layer_of,
    reshapes,
    scaled_mm,
    settled_by,
    shed_by,
    starting_state,
    state_after,
    zone_steps,
)
from coach.operations import operation
from coach.recipe.model import Recipe, Step

#: Below this share of what its limits leave on either side no hand aims at a size otherwise (judgement).
_WORTH_SHARE = 0.1
#: The two sizes across a flat bar, and what a ring has of one of them, which is no size of it.
_FLAT: Final = frozenset({"width", "thickness"})
_WALL: Final = "wall"


class Worn(NamedTuple):
    """A finished size and what the scale does to it after the last work on it."""

    last: Step | None = None  # the step that works to it last; None where it is the bar's own
    asked: str = ""  # the name under which that asks for it
    from_mm: float | None = None  # what that starts from, as planned; None where only the metal tells
    by_mm: float = 0.0  # how much bigger the scale makes it from then on; below 0 smaller
    left_mm: float | None = None  # what it is in the end, as planned; None where only the metal tells

    def scaled(self, shed: float, layer_mm: float) -> Worn:
        """It with a layer off every face."""
        left_mm = self.left_mm
        return self._replace(
            by_mm=self.by_mm + shed * layer_mm,
            left_mm=left_mm if left_mm is None else scaled_mm(left_mm, shed, layer_mm),
        )


_UNKNOWN = Worn()


def worn_sizes(recipe: Recipe, zone: str) -> Mapping[str, Worn]:
    """Every settled size that a zone ends with, by dimension; the scale as the recipe has it."""
    left = _begins(recipe, zone)
    for _, worn, _ in _after_each(recipe, zone):
        left = worn
    return left


def _after_each(recipe: Recipe, zone: str) -> Iterator[tuple[Step, Mapping[str, Worn], Mapping[str, str]]]:
    """The sizes after each step, with those that it asks for and leaves, for they are less already.

    The latter by their names, each with what the step calls it.
    """
    worn, state = _begins(recipe, zone), starting_state(recipe, zone)
    for step in zone_steps(recipe, zone):
        after = state_after(step, state)
        have = {name: one.left_mm for name, one in worn.items() if one.left_mm is not None}
        kept, layer_mm = kept_by(step, state, after, have), layer_of(recipe, step, step.heats)
        sheds = shed_by(step, after, kept)
        found, less = {}, {}
        for one in settled_by(step, state, after):
            name = one.dimension
            if name in kept:
                found[name] = worn.get(kept[name], _UNKNOWN).scaled(sheds.get(name, 0.0), layer_mm)
                if one.asked:
                    less[name] = one.source
                continue
            aim_mm = step.targets[one.source].nominal
            from_mm = have.get(after.shape.worked_from(name, aim_mm, have) or "")
            found[name] = Worn(step, one.source, from_mm, 0.0, aim_mm)
        if (wall := _wall(worn, after, kept)) is not None:
            shed = shed_by(step, after, [after.free]).get(after.free, 0.0)  # it goes as the outside would
            found[_WALL] = wall.scaled(shed, layer_mm)
        worn, state = found, after
        yield step, worn, less


def _wall(worn: Mapping[str, Worn], after: ZoneState, kept: Mapping[str, str]) -> Worn | None:
    """The wall of a ring before a step's heats: the size of the bar that does not lie along its axis.

    None of another form, and where the bar is worked to it, for then only the metal tells.
    """
    if not form_kind(after.shape.kind).WALL_FROM:
        return None
    if _WALL in worn:
        return worn[_WALL]
    along = kept.get("thickness")
    return next((one for name, one in worn.items() if along in _FLAT and name in _FLAT - {along}), None)


def with_aims_that_are_left(recipe: Recipe) -> Recipe:
    """A recipe in which a size that a step cannot make is aimed at where the step leaves it.

    No hammer makes a section bigger that is less already than it is asked to be, and no bend makes one that
    is a little more smaller: within the limits asked for it stays as it is, less its scale, and the length
    that the metal makes is that of this section.
    """
    steps = {step.number: step for step in recipe.steps}
    for zone in recipe.drawing:
        for step, worn, less in _after_each(recipe, zone):
            if len(step.zones) > 1 or not reshapes(step, zone) or operation(step.operation).FIXES:
                continue
            targets = dict(steps[step.number].targets)
            for name, asked in less.items():
                left_mm, limits = worn[name].left_mm, targets[asked]
                if left_mm is None or not limits.is_two_sided or not limits.contains(left_mm):
                    continue
                if abs(limits.nominal - left_mm) >= _WORTH_SHARE * limits.width / 2.0:
                    targets[asked] = replace(limits, nominal=left_mm)
            steps[step.number] = steps[step.number]._replace(targets=targets)
    return recipe._replace(steps=tuple(steps[step.number] for step in recipe.steps))


def _begins(recipe: Recipe, zone: str) -> Mapping[str, Worn]:
    """What a zone has of its bar, or of the zone that it is split from."""
    piece, state = recipe.piece_of(zone), starting_state(recipe, zone)
    if piece.split_from(zone) is None:
        return {name: Worn(left_mm=size) for name, size in piece.stock.sizes_mm.items()}
    whole, branch = branch_of(recipe, zone)
    cut = zone_steps(recipe, whole)[-1]
    has = worn_sizes(recipe, whole)
    found = {}
    for name in state.shape.dimensions:
        source = next((one for one in state.shape.sources(name) if one in has), None)
        left_mm = has[source].left_mm if source is not None else None
        if left_mm is not None and name in CUT_ACROSS:
            left_mm = branch.share * (left_mm - slit_of(cut))
        if name != state.free:
            found[name] = Worn(left_mm=left_mm)
    return found


def with_room_for_scale(recipe: Recipe) -> Recipe:
    """A recipe in which what is worked to a size of the drawing is so much fuller that its scale leaves that.

    Only at the last step that works to it, and where that asks for what the drawing does: a step with limits
    of its own has the last word. For a fire that was put in because something failed nobody left any: what
    was worked before stays aimed as it was.
    """
    steps = {step.number: step for step in recipe.steps}
    as_planned = recipe._replace(steps=tuple(step for step in recipe.steps if not step.again))
    for zone in recipe.drawing:
        for step, name, room_mm in _fuller(as_planned, zone):
            now = steps[step.number]
            fuller = now.targets[name].moved(room_mm)
            steps[step.number] = now._replace(targets={**now.targets, name: fuller})
    return recipe._replace(steps=tuple(steps[step.number] for step in recipe.steps))


def _fuller(recipe: Recipe, zone: str) -> Iterator[tuple[Step, str, float]]:
    drawn = recipe.drawing[zone].limits
    for name, worn in worn_sizes(recipe, zone).items():
        step = worn.last
        if name not in drawn or step is None or worn.asked != name or len(step.zones) > 1:
            continue
        room_mm = -worn.by_mm
        if worn.from_mm is not None and worn.from_mm >= drawn[name].nominal:  # hammered smaller
            room_mm = min(room_mm, worn.from_mm - drawn[name].nominal)
        half_mm = drawn[name].width / 2.0
        is_worth_it = room_mm and (isinf(half_mm) or abs(room_mm) >= _WORTH_SHARE * half_mm)
        if is_worth_it and step.targets[name] == drawn[name]:
            yield step, name, room_mm


def left_by_scale(recipe: Recipe, zone: str) -> tuple[dict[str, float], dict[str, float]]:
    """By dimension, mm: how far a zone ends from its drawing as planned, and what the scale does to that."""
    drawn = recipe.drawing[zone].limits
    worn = {name: one for name, one in worn_sizes(recipe, zone).items() if name in drawn}
    beside = {n: one.left_mm - drawn[n].nominal for n, one in worn.items() if one.left_mm is not None}
    off = {name: one.by_mm for name, one in worn.items()}
    inside = form_kind(recipe.drawing[zone].shape.kind).WALL_FROM
    wall = worn_sizes(recipe, zone).get(_WALL)
    free = form_kind(recipe.drawing[zone].shape.kind).FREE
    if inside and wall is not None and wall.left_mm is not None and inside in beside:
        drawn_mm = 0.5 * (drawn[free].nominal - drawn[inside].nominal)
        if not LEFT_ACROSS * drawn_mm <= wall.left_mm <= MORE_ACROSS * drawn_mm:
            return beside, off  # it is drawn out as it is closed, and the metal tells
        outside_mm = drawn[inside].nominal + beside[inside] + 2.0 * wall.left_mm
        beside[free] = outside_mm - drawn[free].nominal
        off[free] = off[inside] + 2.0 * wall.by_mm
    return beside, off
