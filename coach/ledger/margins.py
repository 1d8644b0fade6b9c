"""How every size of the drawing comes out, and how it hangs on what is believed; laid steel, as it was."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from math import inf
from typing import NamedTuple

from coach.ledger.belief import Change
from coach.ledger.hand import cut_scatter_mm
from coach.ledger.nominal import Stage
from coach.ledger.plan import Plan
from coach.ledger.workpiece import Workpiece, size_name, volume_name
from coach.quantities import Limits


class Margin(NamedTuple):
    """A size of the drawing as it comes out, with how it hangs on what is believed then."""

    zone: str
    dimension: str
    size_mm: float
    slopes: Mapping[str, float]
    limits: Limits
    by_hand: bool = True  # whether it is the size itself that a hand works to


def margins_of(plan: Plan, workpiece: Workpiece, zone: str) -> Iterator[Margin]:
    """Every size that a zone's drawing asks for, without those that only go with another."""
    state, drawn = workpiece.zones[zone], plan.recipe.drawing[zone].limits
    if not state.has_form:
        for dimension, limits in drawn.items():
            name = _laid_name(zone, dimension)
            if name in workpiece.belief:
                yield Margin(zone, dimension, workpiece.belief.mean(name), {name: 1.0}, limits)
        return
    form = workpiece.form(zone)
    for dimension, limits in drawn.items():
        if dimension in form.DIMENSIONS:
            leader = state.leader(dimension)
            if leader == dimension or drawn.get(leader) != limits:
                size = workpiece.size(zone, dimension, form)
                yield Margin(zone, dimension, size.value, size.slopes, limits)


def noted_as_laid(workpiece: Workpiece, zone: str) -> Workpiece:
    """The workpiece that still knows, once a zone is laid on another, with what metal and sizes it went on.

    It has no form of its own from then on, and its drawing is of it as it is laid.
    """
    state, form = workpiece.zones[zone], workpiece.form(zone)
    sizes = {name: workpiece.size(zone, name, form) for name in state.shape.dimensions}
    changes = {_laid_name(zone, name): Change(size.value, size.slopes) for name, size in sizes.items()}
    metal = workpiece.volume(zone)
    changes[volume_name(_as_laid(zone))] = Change(metal.value, metal.slopes)
    return workpiece._replace(belief=workpiece.belief.predict(changes))


def as_laid(workpiece: Workpiece, zone: str) -> Workpiece | None:
    """The workpiece with a zone that was laid on another as it went on; None where that was not kept.

    What it weighs there counts for its own drawing alone: the zone that holds it keeps its metal.
    """
    state = workpiece.zones[zone]
    if volume_name(_as_laid(zone)) not in workpiece.belief:
        return None
    names = {name: _laid_name(zone, name) for name in state.shape.dimensions if name != state.free}
    mean = workpiece.belief.mean
    changes = {size_name(zone, name): Change(mean(kept), {kept: 1.0}) for name, kept in names.items()}
    zones = {**workpiece.zones, zone: state._replace(within=None, parts=(_as_laid(zone),))}
    return workpiece._replace(zones=zones, belief=workpiece.belief.predict(changes))


def noted_before_fixing(workpiece: Workpiece, stage: Stage, aim_mm: float) -> Workpiece:
    """The workpiece that still knows, once metal was taken away to reach a size, how much was there before.

    And how true it is reached: what is there after is the lesser of the two, which is no Gaussian quantity.
    """
    zone, free = stage.zone, stage.after.free
    there, usual_mm = workpiece.size(zone, free), cut_scatter_mm(stage.step.targets.get(free), aim_mm)
    truly = Change(aim_mm, variance=usual_mm**2)
    before, reached = _fixing_names(zone)
    changes = {
        before: Change(there.value, there.slopes),
        reached: truly,
    }
    return workpiece._replace(belief=workpiece.belief.predict(changes))


def as_fixed(workpiece: Workpiece, margin: Margin) -> Iterator[Margin]:
    """A size that metal is taken away to reach: enough was there before, and it is reached truly."""
    before, reached = _fixing_names(margin.zone)
    mean, limits = workpiece.belief.mean, margin.limits
    enough = Limits(max(limits.nominal, limits.low), limits.low, inf, limits.stated)
    yield margin._replace(size_mm=mean(before), slopes={before: 1.0}, limits=enough, by_hand=False)
    yield margin._replace(size_mm=mean(reached), slopes={reached: 1.0})


def _fixing_names(zone: str) -> tuple[str, str]:
    return f"{zone} before metal is taken", f"{zone} as it is reached"


def _as_laid(zone: str) -> str:
    return f"as laid, {zone}"


def _laid_name(zone: str, dimension: str) -> str:
    return f"{_as_laid(zone)} {dimension}"
