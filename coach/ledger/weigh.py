"""Weighs a recipe before any fire is lit: whether its metal can go where its steps send it."""

from __future__ import annotations

from collections.abc import Iterator

from coach.forms import said
from coach.ledger.finding import Cannot, Finding, at_step
from coach.ledger.nominal import Stage
from coach.ledger.plan import Plan, laid_zones
from coach.ledger.weigh_steel import weigh_steel
from coach.ledger.working import reshapes
from coach.operations import operation
from coach.quantities import Limits, Wanted, mm, say

#: A length may lose this share to scale and rounding before it counts as gathered up.
_SHORTER_SHARE = 0.03


def weigh(plan: Plan) -> tuple[Finding, ...]:
    """Everything that the metal cannot do, in the order of the steps.

    What stops the reckoning altogether (a hole that leaves no wall, laid steel bigger than its zone) is a
    LedgerError of `look_back` and never gets here.
    """
    gathered = (_gathered(stage) for way in plan.stages.values() for stage in way)
    found = [*(one for one in gathered if one is not None), *_against_drawing(plan), *weigh_steel(plan)]
    return tuple(sorted(found, key=lambda finding: finding.step))


def _gathered(stage: Stage) -> Finding | None:
    """A section that grows while the zone gets shorter, where nothing upsets it."""
    step, zone = stage.step, stage.zone
    todo = operation(step.operation)
    moves_metal = reshapes(step, zone) and not (todo.GATHERS or todo.FIXES or stage.laid_mm3)
    if not moves_metal or stage.after.free != "length":
        return None
    before, after = stage.form_before.sizes_mm().get("length"), stage.form_after.sizes_mm().get("length")
    if before is None or after is None or after >= before * (1.0 - _SHORTER_SHARE):
        return None
    words = say(
        "{} would have to shorten from {} to {} to make that section, and to {} gathers no metal; upset it "
        "first, or take heavier stock.",
        zone,
        mm(before),
        mm(after),
        step.operation,
    )
    return at_step(Cannot.GATHER, step, words, zone)


def _against_drawing(plan: Plan) -> Iterator[Finding]:
    laid = laid_zones(plan.recipe)
    for zone, way in plan.stages.items():
        number = way[-1].step.number if way else 0
        sizes = (way[-1].form_after if way else plan.bar_of(zone)).sizes_mm()
        when = f"ready for the {laid[zone]}" if zone in laid else "in the end"
        for name, limits in plan.recipe.drawing[zone].limits.items():
            if name in sizes and not _within(sizes[name], limits):
                words = say(
                    "The steps leave the {} of {} at {} {}, and the drawing wants {}.",
                    said(name),
                    zone,
                    mm(sizes[name]),
                    when,
                    Wanted(limits),
                )
                yield Finding(Cannot.MAKE_DRAWING, number, zone, words)


def _within(size: float, limits: Limits) -> bool:
    slack = 1e-6 * abs(limits.nominal)
    return limits.low - slack <= size <= limits.high + slack
