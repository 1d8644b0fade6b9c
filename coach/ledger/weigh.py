"""Weighs a recipe before any fire is lit: whether its metal can go where its steps send it."""

from __future__ import annotations

from coach.forms import said
from coach.ledger.finding import Finding
from coach.ledger.nominal import Stage
from coach.ledger.plan import Plan, laid_zones
from coach.ledger.weigh_steel import weigh_steel
from coach.ledger.working import reshapes
from coach.operations import operation
from coach.quantities import Limits, Shown, write_length, write_limits

#: A length may lose this share to scale and rounding before it counts as gathered up.
_SHORTER_SHARE = 0.03


def weigh(plan: Plan, shown: Shown) -> tuple[Finding, ...]:
    """Everything that the metal cannot do, in the order of the steps.

    What stops the reckoning altogether (a hole that leaves no wall, laid steel bigger than its zone) is a
    LedgerError of `look_back` and never gets here.
    """
    found = [
        *(finding for way in plan.stages.values() for stage in way for finding in _gathered(stage, shown)),
        *_against_drawing(plan, shown),
        *weigh_steel(plan, shown),
    ]
    return tuple(sorted(found, key=lambda finding: finding.step))


def _gathered(stage: Stage, shown: Shown) -> list[Finding]:
    """A section that grows while the zone gets shorter, where nothing upsets it."""
    step, zone = stage.step, stage.zone
    todo = operation(step.operation)
    if (
        not reshapes(step, zone)
        or todo.GATHERS
        or todo.FIXES
        or stage.laid_mm3
        or stage.after.free != "length"
    ):
        return []
    before, after = stage.form_before.sizes_mm().get("length"), stage.form_after.sizes_mm().get("length")
    if before is None or after is None or after >= before * (1.0 - _SHORTER_SHARE):
        return []
    return [
        Finding(
            step.number,
            f"Step {step.number}, {step.title}: {zone} would have to shorten from "
            f"{write_length(before, shown)} to {write_length(after, shown)} to make that section, and to "
            f"{step.operation} gathers no metal; upset it first, or take heavier stock.",
        )
    ]


def _against_drawing(plan: Plan, shown: Shown) -> list[Finding]:
    laid = laid_zones(plan.recipe)
    found = []
    for zone, way in plan.stages.items():
        number = way[-1].step.number if way else 0
        sizes = (way[-1].form_after if way else plan.bar_of(zone)).sizes_mm()
        for name, limits in plan.recipe.drawing[zone].limits.items():
            if name not in sizes or _within(sizes[name], limits):
                continue
            when = f"ready for the {laid[zone]}" if zone in laid else "in the end"
            found.append(
                Finding(
                    number,
                    f"The steps leave the {said(name)} of {zone} at {write_length(sizes[name], shown)} "
                    f"{when}, and the drawing wants {write_limits(limits, shown)}.",
                )
            )
    return found


def _within(size: float, limits: Limits) -> bool:
    slack = 1e-6 * abs(limits.nominal)
    return limits.low - slack <= size <= limits.high + slack
