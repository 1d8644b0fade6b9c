"""What the scale of the heats to come takes off a size, and how much fuller it is worked for that."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from math import isinf
from typing import NamedTuple

from coach.ledger.nominal import kept_by, zone_steps
from coach.ledger.working import (
    layer_of,
    scaled_mm,
    settled_by,
    shed_by,
    starting_state,
    state_after,
)
from coach.recipe.model import Recipe, Step

#: Below this share of what its limits leave on either side no hand aims at a size otherwise (judgement).
_WORTH_SHARE = 0.1


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
    state = starting_state(recipe, zone)
    worn = {name: Worn(left_mm=size) for name, size in recipe.piece_of(zone).stock.sizes_mm.items()}
    for step in zone_steps(recipe, zone):
        after = state_after(step, state)
        have = {name: one.left_mm for name, one in worn.items() if one.left_mm is not None}
        kept, layer_mm = kept_by(step, state, after, have), layer_of(recipe, step, step.heats)
        sheds = shed_by(step, after, kept)
        found = {}
        for one in settled_by(step, state, after):
            name = one.dimension
            if name in kept:
                found[name] = worn.get(kept[name], _UNKNOWN).scaled(sheds.get(name, 0.0), layer_mm)
                continue
            aim_mm = step.targets[one.source].nominal
            from_mm = have.get(after.shape.worked_from(name, aim_mm, have) or "")
            found[name] = Worn(step, one.source, from_mm, 0.0, aim_mm)
        worn, state = found, after
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
    return beside, {name: one.by_mm for name, one in worn.items()}
