"""What taking a remedy changes: sizes wanted from here on, heats, and where the metal is."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import inf, isinf
from typing import Any, NamedTuple

from coach.ledger.belief import Change
from coach.ledger.plan import Plan, look_back
from coach.ledger.workpiece import Workpiece, size_name, volume_name
from coach.quantities import Limits
from coach.recipe.model import Recipe, Step


class NewLimits(NamedTuple):
    """What is wanted of a finished size from now on."""

    zone: str
    dimension: str
    limits: Limits


class NewTarget(NamedTuple):
    """What a step works to from now on."""

    step: int
    dimension: str
    limits: Limits


class NewHeats(NamedTuple):
    """How many heats a step is now planned to take."""

    step: int
    heats: int


class Moved(NamedTuple):
    """Metal that a zone gains or gives."""

    zone: str
    volume_mm3: float
    doubt_mm3: float


class Regained(NamedTuple):
    """A size that is worked back to its target, though the recipe's step would only take it further."""

    zone: str
    dimension: str
    size_mm: float
    doubt_mm: float


class NewAllowance(NamedTuple):
    """How much more than it needs is marked out for a zone from now on, as a share of its volume."""

    zone: str
    share: float


class Amendment(NamedTuple):
    """Everything that one remedy changes; the recipe file is never touched."""

    limits: tuple[NewLimits, ...] = ()
    targets: tuple[NewTarget, ...] = ()
    heats: tuple[NewHeats, ...] = ()
    moved: tuple[Moved, ...] = ()
    regained: tuple[Regained, ...] = ()
    allowances: tuple[NewAllowance, ...] = ()


def amended_recipe(recipe: Recipe, amendment: Amendment) -> Recipe:
    """The recipe as the job follows it from here on."""
    drawing = dict(recipe.drawing)
    for new in amendment.limits:
        zone = drawing[new.zone]
        drawing[new.zone] = zone._replace(limits={**zone.limits, new.dimension: new.limits})
    for allowance in amendment.allowances:
        drawing[allowance.zone] = drawing[allowance.zone]._replace(allowance_share=allowance.share)
    steps: list[Step] = list(recipe.steps)
    for target in amendment.targets:
        step = steps[target.step - 1]
        steps[target.step - 1] = step._replace(targets={**step.targets, target.dimension: target.limits})
    for heats in amendment.heats:
        steps[heats.step - 1] = steps[heats.step - 1]._replace(heats=heats.heats, heats_said=True)
    return recipe._replace(drawing=drawing, steps=tuple(steps))


def amended_plan(plan: Plan, amendment: Amendment) -> Plan:
    """The plan of the amended recipe.

    Raises:
        LedgerError: the metal cannot make what is wanted now.
    """
    if not (amendment.limits or amendment.targets or amendment.heats or amendment.allowances):
        return plan
    return look_back(amended_recipe(plan.recipe, amendment))


def amended_workpiece(workpiece: Workpiece, amendment: Amendment) -> Workpiece:
    """The metal where the remedy puts it."""
    changes: dict[str, Change] = {}
    belief = workpiece.belief
    for moved in amendment.moved:
        name = volume_name(moved.zone)
        changes[name] = Change(belief.mean(name) + moved.volume_mm3, {name: 1.0}, moved.doubt_mm3**2)
    for regained in amendment.regained:
        state = workpiece.zones[regained.zone]
        if regained.dimension != state.free and regained.dimension in state.shape.dimensions:
            changes[size_name(regained.zone, regained.dimension)] = Change(
                regained.size_mm, {}, regained.doubt_mm**2
            )
    return workpiece._replace(belief=belief.moved(changes)) if changes else workpiece


def frozen(amendment: Amendment) -> dict[str, object]:
    """An amendment as JSON-able values; an open limit is None."""
    return {
        "limits": [[*new[:2], _limits(new.limits)] for new in amendment.limits],
        "targets": [[*new[:2], _limits(new.limits)] for new in amendment.targets],
        "heats": [list(new) for new in amendment.heats],
        "moved": [list(new) for new in amendment.moved],
        "regained": [list(new) for new in amendment.regained],
        "allowances": [list(new) for new in amendment.allowances],
    }


def thawed(kept: Mapping[str, Any]) -> Amendment:
    """The amendment that `frozen` made these values from; raises KeyError, TypeError or ValueError."""
    return Amendment(
        limits=tuple(NewLimits(zone, size, _read(told)) for zone, size, told in kept["limits"]),
        targets=tuple(NewTarget(step, size, _read(told)) for step, size, told in kept["targets"]),
        heats=tuple(NewHeats(*told) for told in kept["heats"]),
        moved=tuple(Moved(*told) for told in kept["moved"]),
        regained=tuple(Regained(*told) for told in kept["regained"]),
        # Not in the entries of the first versions.
        allowances=tuple(NewAllowance(*told) for told in kept.get("allowances", ())),
    )


def _limits(limits: Limits) -> list[object]:
    return [
        limits.nominal,
        None if isinf(limits.low) else limits.low,
        None if isinf(limits.high) else limits.high,
    ]


def _read(told: Sequence[Any]) -> Limits:
    nominal, low, high = told
    return Limits(nominal, -inf if low is None else low, inf if high is None else high, True)
