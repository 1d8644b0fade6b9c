"""What the scale of the heats to come takes off a size, and how much fuller it is worked for that."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from coach.ledger.nominal import zone_steps
from coach.ledger.working import (
    layer_of,
    scaled_mm,
    settled_by,
    shed_by,
    starting_state,
    state_after,
)
from coach.operations import operation
from coach.quantities import Limits
from coach.recipe.model import Recipe, Step


class Worn(NamedTuple):
    """A finished size and what the scale does to it after the last work on it."""

    last: Step | None  # the step that works to it last; None where it is the bar's own
    asked: str  # the name under which that asks for it
    from_mm: float | None  # what that starts from, as planned; None where only the metal tells
    by_mm: float  # how much bigger the scale makes it from then on; below 0 smaller


def worn_sizes(recipe: Recipe, zone: str) -> Mapping[str, Worn]:
    """Every settled size that a zone ends with, by dimension; the scale as the recipe has it."""
    state = starting_state(recipe, zone)
    have: dict[str, float] = dict(recipe.piece_of(zone).stock.sizes_mm)
    worn = {name: Worn(None, "", None, 0.0) for name in state.shape.dimensions}
    for step in zone_steps(recipe, zone):
        after = state_after(step, state)
        layer_mm, sheds = layer_of(recipe, step, step.heats), shed_by(step, state, after)
        found, left = {}, {}
        for one in settled_by(step, state, after):
            name, shed = one.dimension, sheds.get(one.dimension, 0.0)
            if one.asked:
                aim_mm = step.targets[one.source].nominal
                source = after.shape.worked_from(name, aim_mm, have)
                found[name] = Worn(step, one.source, have[source] if source is not None else None, 0.0)
                left[name] = aim_mm
                continue
            was = worn.get(one.source, Worn(None, "", None, 0.0))
            found[name] = was._replace(by_mm=was.by_mm + shed * layer_mm)
            if one.source in have:
                left[name] = scaled_mm(have[one.source], shed, layer_mm)
        worn, have, state = found, left, after
    return worn


def with_room_for_scale(recipe: Recipe) -> Recipe:
    """A recipe in which what is worked to a size of the drawing is so much fuller that its scale leaves that.

    Only at the last step that works to it, and where that asks for what the drawing does: a step with limits
    of its own has the last word.
    """
    steps = {step.number: step for step in recipe.steps}
    for zone in recipe.drawing:
        for step, name, room_mm in _fuller(recipe, zone):
            now = steps[step.number]
            moved = _moved(now.targets[name], room_mm)
            steps[step.number] = now._replace(targets={**now.targets, name: moved})
    return recipe._replace(steps=tuple(steps[step.number] for step in recipe.steps))


def _fuller(recipe: Recipe, zone: str) -> Iterator[tuple[Step, str, float]]:
    drawn = recipe.drawing[zone].limits
    for name, worn in worn_sizes(recipe, zone).items():
        step = worn.last
        if step is None or not worn.by_mm or operation(step.operation).FIXES or len(step.zones) > 1:
            continue
        as_drawn = name in drawn and step.targets.get(worn.asked) == drawn[name]
        if as_drawn and worn.asked == name and (room_mm := _room_mm(drawn[name].nominal, worn)):
            yield step, name, room_mm


def _room_mm(drawn_mm: float, worn: Worn) -> float:
    """How much bigger a size can be worked for its scale: what is hammered smaller, up to what there is."""
    if worn.from_mm is None or worn.from_mm < drawn_mm:
        return -worn.by_mm
    return min(-worn.by_mm, worn.from_mm - drawn_mm)


def _moved(limits: Limits, by_mm: float) -> Limits:
    return Limits(limits.nominal + by_mm, limits.low + by_mm, limits.high + by_mm, limits.stated)


def left_by_scale(recipe: Recipe, zone: str) -> tuple[dict[str, float], dict[str, float]]:
    """By dimension, mm: how far the scale leaves a zone from its drawing, and how much of it comes off.

    The first is less than the second by what its work has left for it.
    """
    drawn = recipe.drawing[zone].limits
    beside, off = {}, {}
    for name, worn in worn_sizes(recipe, zone).items():
        if name not in drawn or not worn.by_mm:
            continue
        off[name] = beside[name] = worn.by_mm
        asked = worn.last.targets.get(worn.asked) if worn.last is not None else None
        room_mm = _room_mm(drawn[name].nominal, worn)
        if asked is not None and asked == _moved(drawn[name], room_mm):
            beside[name] += room_mm
    return beside, off
