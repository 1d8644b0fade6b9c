"""Weighs the heats of a recipe: too hot, too cold to hammer, and treatments out of their order."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from coach.fire.limits import burning_words, too_cold
from coach.ledger.hot_work import grades_in
from coach.ledger.plan import Plan
from coach.operations import Does, operation
from coach.operations.does import HeatKind
from coach.quantities import Words, celsius, say
from coach.recipe.model import Step

#: Steel as quenched is as brittle as glass (from memory).
_SNAPS: Final = (
    "{} is hard from step {} and not tempered: cold it snaps and its pieces fly. Temper it first; eyes "
    "covered in any case."
)


def burnt(plan: Plan, step: Step) -> Words | None:
    """What burns in a step's heat, or must be feared to; None where nothing does."""
    if step.temperature_c is None or not step.heats:
        return None
    for metal in grades_in(plan, step._replace(heated=())):
        if words := burning_words(metal, step.temperature_c):
            return words
    return None


def cracked(plan: Plan, step: Step) -> Words | None:
    """What is to be hammered colder than it gives; None where nothing is."""
    todo = operation(step.operation)
    hammered = todo.RESHAPES and not todo.FIXES and step.heat_kind is HeatKind.FORGING
    if step.temperature_c is None or not step.heats or not hammered:
        return None
    for metal in grades_in(plan, step._replace(heated=())):
        stop = too_cold(metal).stop_below
        if step.temperature_c < stop.value:
            heat = celsius(step.temperature_c)
            return say(
                "{} is no heat to {} {} at: below {} it cracks.", heat, step.operation, metal.name, stop
            )
    return None


def out_of_order(plan: Plan) -> Iterator[tuple[Step, str, Words]]:
    """Tempers of what was not hardened, fires that undo a hardening, cold bending between the two.

    Each with its step and its zone. A zone that lies in the fire of a quench is hardened with the one it is
    for, and what is hardened again later may be heated before.
    """
    hard: dict[str, Step] = {}
    tempered: set[str] = set()
    quenched_later = _last_quenches(plan)
    for step in plan.recipe.steps:
        hot = dict.fromkeys((*step.zones, *step.heated))
        if step.does(Does.QUENCHES):
            hard |= dict.fromkeys(hot, step)
            tempered -= set(hot)
        elif step.does(Does.TEMPERS):
            tempered |= set(step.zones)
            for zone in step.zones:
                if zone not in hard:
                    yield step, zone, say("no step before it hardens {}: there is nothing to temper.", zone)
        elif step.heats and step.heat_kind is not HeatKind.COLD:
            for zone in hot:
                if zone in hard and quenched_later.get(zone, 0) < step.number:
                    first = hard.pop(zone)
                    words = "its fire undoes what step {}, {}, made of {}: do it before, or harden it again."
                    yield step, zone, say(words, first.number, first.title, zone)
        elif operation(step.operation).LIGHT:
            for zone in step.zones:
                if zone in hard and zone not in tempered:
                    yield step, zone, say(_SNAPS, zone, hard[zone].number)


def _last_quenches(plan: Plan) -> dict[str, int]:
    """The last step that quenches each zone."""
    return {
        zone: step.number
        for step in plan.recipe.steps
        if step.does(Does.QUENCHES)
        for zone in (*step.zones, *step.heated)
    }
