"""A size of the drawing that is another: the steps ahead that work to it go with it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any, NamedTuple

from coach.operations import operation
from coach.quantities import Kind, Limits, SizeError
from coach.quantities.units import System
from coach.recipe.limits_written import limits_text
from coach.recipe.model import Recipe, Step
from coach.recipe.sizes import limits_reader


class Redrawn(NamedTuple):
    """A size of the drawing, and what it is to be, as typed."""

    zone: str
    name: str
    to: str


def redraw(
    drawing: dict[str, dict[str, Any]],
    steps: Sequence[dict[str, Any]],
    job: Recipe,
    done: int,
    change: Redrawn,
) -> None:
    """Change a size of a recipe spelt out, and with it what goes by that."""
    zone, name, to = change
    drawing[zone][name] = to
    try:
        told = limits_reader(name, Kind.LENGTH)(to, job.system)
    except SizeError:  # the reader of the recipe says why
        return
    new = with_far_mouth(job, zone, {name: told})
    for other in new.keys() - {name}:
        drawing[zone][other] = f"{limits_text(new[other], job.system)} {job.system}"
    said_by(steps, steps_to(job, zone, new, done), job.system)


def with_far_mouth(recipe: Recipe, zone: str, new: Mapping[str, Limits]) -> dict[str, Limits]:
    """The same with the far mouth of a hole as much wider than the near one as it was drawn."""
    limits, found = recipe.drawing[zone].limits, dict(new)
    for name, told in new.items():
        far = f"far_{name}"
        if far in limits:
            found[far] = _moved(limits[far], told.nominal - limits[name].nominal)
    return found


def steps_to(recipe: Recipe, zone: str, new: Mapping[str, Limits], done: int) -> dict[int, dict[str, Limits]]:
    """By step ahead, what it works a zone to once its drawing is `new`, of the sizes that it says itself.

    The last of its hot steps and what is taken off after it keep what they leave to each other; a step before
    that works on to what it said, unless that was the drawing.
    """
    limits = recipe.drawing[zone].limits
    ahead = [step for step in recipe.steps[done:] if zone in step.zones]
    found: dict[int, dict[str, Limits]] = {}
    for name, drawn in new.items():
        finishing = _finishing(ahead, name)
        for step in ahead:
            wanted = step.targets.get(name)
            if wanted is None or not (step.number >= finishing or wanted == limits[name]):
                continue
            told = drawn if wanted == limits[name] else _moved(wanted, drawn.nominal - limits[name].nominal)
            found.setdefault(step.number, {})[name] = told
    return found


def _finishing(ahead: Sequence[Step], name: str) -> int:
    """The last hot step that works to a size; 0 where none does."""
    hot = (one.number for one in ahead if name in one.targets and not operation(one.operation).FIXES)
    return max(hot, default=0)


def said_by(steps: Sequence[dict[str, Any]], to: Mapping[int, Mapping[str, Limits]], unit: System) -> None:
    """Write into the steps of a recipe spelt out what they work to; one that says `drawing` says it still."""
    for number, sizes in to.items():
        if isinstance(said := steps[number - 1].get("to"), dict):
            written = {
                name: f"{limits_text(told, unit)} {unit}" for name, told in sizes.items() if name in said
            }
            steps[number - 1]["to"] = {**said, **written}


def _moved(limits: Limits, by_mm: float) -> Limits:
    return Limits(limits.nominal + by_mm, limits.low + by_mm, limits.high + by_mm, limits.stated)
