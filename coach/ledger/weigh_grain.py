"""Weighs whether steel comes to its quench as coarse as the forging fire left it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import dropwhile, takewhile
from typing import Final

from coach.ledger.course import Course, HeatMark
from coach.ledger.hot_work import steels_of
from coach.ledger.plan import Plan
from coach.metals.hardening import normalise_words
from coach.operations import Does
from coach.operations.does import HeatKind
from coach.quantities import Words, say
from coach.recipe.model import Step

#: A forging heat up to here, in °C, leaves no coarser grain than normalising does, where a steel's own heat
#: to normalise it is not known (judgement).
_COARSENS_ABOVE_C: Final = 900.0
#: Coarse grain cracks in the quench: Precision Machined Products Association, 7 Causes of Quench Cracking in
#: Steel, 2010, no. 1 (confirmed).
_NOT_REFINED: Final = (
    "{} is forged in step {}, {}, and no step after that makes its grain fine: coarse grain cracks in the "
    "quench and breaks in use. {}"
)
_NO_HEAT_ENTERED: Final = (
    "No heat of step {}, {}, is entered. If it was left out, do it before the quench: coarse grain cracks in "
    "it and breaks in use."
)
#: Each quench strains it anew, and a fine grain stands that best (common practice, no source).
_QUENCHED_ANEW: Final = (
    "{} is quenched in step {}, {}, already, and no step between makes its grain fine: every quench is one "
    "more chance to crack. {} Is it meant so?"
)
_MORE_THAN_ONCE: Final = "Every quench is one more chance to crack: look for a crack after it."
_NOT_NORMALISED: Final = (
    "Every quench is one more chance to crack: normalise it before, and look for a crack after it."
)


def quenched_coarse(plan: Plan, step: Step) -> Iterator[Words]:
    """What a recipe leaves out before a quench: the heat that makes fine what the forging heats made coarse.

    An annealing and an earlier quench make it fine too (from memory).
    """
    if not step.does(Does.QUENCHES):
        return
    for zone in step.zones:
        for fire in takewhile(_is_forged_in, _fires_before(plan, step, zone)):
            for metal in steels_of(plan, step):
                high_c = metal.normalising_high_c or _COARSENS_ABOVE_C
                if fire.temperature_c is None or fire.temperature_c > high_c:
                    yield say(_NOT_REFINED, zone, fire.number, fire.title, normalise_words(metal))
                    return  # a step is told of it once


def quenched_anew(plan: Plan, step: Step) -> Iterator[Words]:
    """What is to be asked of a quench of what was quenched before and not normalised since."""
    for zone in step.zones:
        was, refined = _quenched_before(plan, step, zone)
        if was is not None and not refined:
            unlike = [one for one in steels_of(plan, step) if one.normalising_low_c is None]
            before = normalise_words(unlike[0]) if unlike else "Normalise it between."
            yield say(_QUENCHED_ANEW, zone, was.number, was.title, before)
            return


def caution_of_another_quench(plan: Plan, step: Step) -> str:
    """What is said at a quench of what was quenched before; "" at the first."""
    found = [_quenched_before(plan, step, zone) for zone in step.zones]
    refined = [made_fine for was, made_fine in found if was is not None]
    is_fine = all(refined) or bool(hard_besides(plan, step))
    return (_MORE_THAN_ONCE if is_fine else _NOT_NORMALISED) if refined else ""


def hard_besides(plan: Plan, step: Step) -> list[str]:
    """What another quench has hardened that the normalising of a step's zones would draw: they are not."""
    done = plan.recipe.steps[: step.number - 1]
    hard = {zone for one in done if one.does(Does.QUENCHES) for zone in one.metal} - step.metal
    fires = [one.metal & hard for one in done if one.does(Does.NORMALISES) and {*step.zones} <= one.metal]
    return [zone for zone in plan.recipe.drawing if any(zone in reached for reached in fires)]


def _quenched_before(plan: Plan, step: Step, zone: str) -> tuple[Step | None, bool]:
    """The last quench of a zone before this one, and whether a treatment since made its grain fine."""
    refined = False
    for one in _fires_before(plan, step, zone) if step.does(Does.QUENCHES) else ():
        if one.does(Does.QUENCHES) and zone in one.zones:
            return one, refined
        refined = refined or one.heat_kind is HeatKind.TREATMENT
    return None, False


def left_out(plan: Plan, step: Step, courses: Sequence[Course]) -> Iterator[Words]:
    """The refining step before a quench of which no heat is entered, in a job that enters its heats."""
    marked = {one.step.number for one in courses if any(isinstance(mark, HeatMark) for mark in one.marks)}
    if not marked or not step.does(Does.QUENCHES):
        return
    for zone in step.zones:
        last = next(dropwhile(_is_forged_in, _fires_before(plan, step, zone)), None)
        if last is not None and last.does(Does.NORMALISES) and last.number not in marked:
            yield say(_NO_HEAT_ENTERED, last.number, last.title)
            return


def _is_forged_in(step: Step) -> bool:
    return step.heat_kind is not HeatKind.TREATMENT


def _fires_before(plan: Plan, step: Step, zone: str) -> Iterator[Step]:
    """The heats before a step that a zone lay in and that leave their mark on its grain, the last first."""
    for one in reversed(plan.recipe.steps[: step.number - 1]):
        hot = one.heats and one.heat_kind is not HeatKind.COLD and not one.does(Does.TEMPERS)
        if hot and zone in (*one.zones, *one.heated, one.lays):
            yield one
