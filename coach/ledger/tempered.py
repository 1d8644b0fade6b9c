"""Which published column of hardness the steel of a tempering step stands in."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import TYPE_CHECKING, TypeAlias

from coach.ledger.hot_work import section_of
from coach.ledger.plan import Plan
from coach.metals.grade_file import Grade
from coach.metals.tempering_table import TemperingRow, tempering_row
from coach.recipe.model import Step

if TYPE_CHECKING:
    from coach.metals.own_curve import OwnCurve

OwnCurves: TypeAlias = "Mapping[tuple[str, str], OwnCurve]"
"""The smith's own curves by the steel's name and the column it stands in; without a reading there is none."""
NOT_TAUGHT: OwnCurves = MappingProxyType({})

_THICKNESSES = ("end_thickness", "thickness")


def row_of(plan: Plan, step: Step, metal: Grade, own: OwnCurves = NOT_TAUGHT) -> TemperingRow | None:
    """The row for the zones' least thickness and for what they were hardened in; None where there is none.

    `own` are the smith's own curves, which come before the published.
    """
    row = tempering_row(metal.name, thickness_mm(plan, step), quenched_in(plan, step, metal))
    curve = own.get((row.name, str(row.column))) if row is not None else None
    return curve.row(row) if row is not None and curve is not None else row


def thickness_mm(plan: Plan, step: Step) -> float | None:
    """How thick the thinnest of a step's zones is where it is thinnest; None where that is not known."""
    found = []
    for zone in step.zones:
        stage = plan.by_step[step.number].get(zone)
        if stage is not None:
            sizes = stage.form_after.sizes_mm()
            said = [sizes[name] for name in _THICKNESSES if sizes.get(name)]
            found.append(min(said, default=2.0 * section_of(stage.form_after).half_thickness_mm))
    return min(found, default=None)


def quenched_in(plan: Plan, step: Step, metal: Grade) -> str:
    """What the zones of a step were last hardened in, by the recipe; else the grade's own quench."""
    for one in reversed(plan.recipe.steps[: step.number]):
        if one.quench and set(one.zones) & set(step.zones):
            return one.quench
    return metal.quench.medium if metal.quench is not None else ""
