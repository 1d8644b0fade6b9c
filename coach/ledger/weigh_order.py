"""Weighs the order of a recipe: what a later fire burns, loosens or spoils that was finished before it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from coach.forms import said
from coach.forms.rivet import Rivet
from coach.ledger.plan import Plan
from coach.ledger.weigh_joint import held_zones
from coach.operations import Does, operation
from coach.operations.does import HeatKind
from coach.quantities import Words, mm, say
from coach.recipe.model import Step

#: Steel that is to be quenched keeps at least so much at its edge, in mm: a thinner one burns, warps and
#: cracks, and has lost its carbon (common practice, no source).
LEAST_AT_QUENCH_MM: Final = 0.5
_EDGES: Final = ("edge", "end_thickness")

_HAFT_BURNS: Final = (
    "step {}, {}, takes {} to the fire with its haft in: it chars and comes loose in the hand. Haft it when "
    "the last fire is out."
)
_HAFT_BETWEEN: Final = (
    "step {}, {}, is a fire, and step {} fits another haft: is this one out by then? Knock it out before the "
    "fire, and say so, or leave it to the last step."
)
_FIT_LOST: Final = (
    "step {}, {}, heats {} once more, and what was fitted scales and warps there: fit it after that."
)
_THIN_EDGE: Final = (
    "step {}, {}, quenches that edge: thin, it burns and cracks there, and its skin has lost its carbon. "
    "Leave it thick, and bring it to its angle after the temper."
)
_THIN_AT_QUENCH: Final = (
    "the {} of {} is {} when it is quenched: under {} it burns and cracks. Grind it to that after the temper."
)
_COLLAR_OPENS: Final = (
    "step {}, {}, heats it once more: it was tight because it shrank, and comes off that fire loose. Close "
    "it last."
)
_RIVET_LOOSENS: Final = (
    "step {}, {}, quenches what it holds: water and scale get between, and it comes loose. Harden and temper "
    "before it is riveted."
)


def spoilt_by_fire(plan: Plan) -> Iterator[tuple[Step, str, Words]]:
    """What is finished before a fire that undoes it, each with its step and its zone, and once.

    Fires that a job puts in to do something again are let be: what is to be seen to before them they say
    themselves.
    """
    steps = plan.recipe.steps
    for step in steps:
        later = [one for one in steps[step.number :] if not one.again]
        for zone in step.zones[:1]:
            if step.does(Does.FITS_A_HAFT):
                words = _hafted(plan, step, zone, later)
            elif operation(step.operation).TRIED_ON:
                words = _fitted(step, zone, later)
            elif step.does(Does.FASTENS):
                words = _fastened(plan, step, zone, later)
            elif step.does(Does.QUENCHES):
                words = _quenched_thin(plan, step)
            else:
                words = _edged(step, zone, later)
            if words is not None:
                yield step, zone, words


def takes_fire(step: Step) -> bool:
    """Whether a step takes its zones near enough to a fire to char wood."""
    return step.does(Does.TEMPERS) or bool(step.heats and step.heat_kind is not HeatKind.COLD)


def _hafted(plan: Plan, step: Step, zone: str, later: list[Step]) -> Words | None:
    """A haft that is in before its piece's last fire, unless it is hafted anew after that."""
    piece = set(plan.recipe.piece_of(zone).zones)
    fires = [one for one in later if takes_fire(one) and piece & one.metal]
    if not fires or any(
        one.number > fires[-1].number and one.does(Does.FITS_A_HAFT) and zone in one.zones for one in later
    ):
        return None
    return say(_HAFT_BURNS, fires[0].number, fires[0].title, plan.recipe.piece_of(zone).name)


def hafted_for_a_while(plan: Plan) -> Iterator[tuple[Step, str, Words]]:
    """Hafts that another follows after a fire: each must be out by then. Each with its step and its zone."""
    for step in plan.recipe.steps:
        for zone in step.zones[:1] if step.does(Does.FITS_A_HAFT) else ():
            later = [one for one in plan.recipe.steps[step.number :] if not one.again]
            piece = set(plan.recipe.piece_of(zone).zones)
            anew = [one.number for one in later if one.does(Does.FITS_A_HAFT) and zone in one.zones]
            fires = [one for one in later if takes_fire(one) and piece & one.metal]
            between = [one for one in fires if anew and one.number < anew[0]]
            if between:
                yield step, zone, say(_HAFT_BETWEEN, between[0].number, between[0].title, anew[0])


def _fitted(step: Step, zone: str, later: list[Step]) -> Words | None:
    """A fit that no join follows, and a fire does, after which it is not tried again."""
    for one in later:
        todo = operation(one.operation)
        joins = one.does(Does.JOINS) or one.does(Does.CLOSES) or one.does(Does.FASTENS)
        if joins or todo.HEAT_KIND is HeatKind.WELDING or (todo.TRIED_ON and zone in one.zones):
            return None
        if takes_fire(one) and zone in one.metal:
            again = later[later.index(one) + 1 :]
            if any(operation(two.operation).TRIED_ON and zone in two.zones for two in again):
                return None
            return say(_FIT_LOST, one.number, one.title, zone)
    return None


def _edged(step: Step, zone: str, later: list[Step]) -> Words | None:
    """An edge that is brought to its angle before it is quenched."""
    sharpens = step.does(Does.WORKS_AN_EDGE) and not operation(step.operation).RESHAPES
    if not sharpens and "edge_angle" not in step.targets:
        return None
    for one in later:
        if one.does(Does.QUENCHES) and zone in one.zones:
            return say(_THIN_EDGE, one.number, one.title)
    return None


def _quenched_thin(plan: Plan, step: Step) -> Words | None:
    """An edge that is thinner at its quench than it may be."""
    for zone in step.zones:
        stage = plan.by_step[step.number].get(zone)
        sizes = stage.form_before.sizes_mm() if stage is not None else {}
        for name in _EDGES:
            if 0.0 < sizes.get(name, 0.0) < LEAST_AT_QUENCH_MM:
                return say(_THIN_AT_QUENCH, said(name), zone, mm(sizes[name]), mm(LEAST_AT_QUENCH_MM))
    return None


def _fastened(plan: Plan, step: Step, zone: str, later: list[Step]) -> Words | None:
    """A collar that is heated once more, or a riveted joint that is quenched.

    A riveted joint is heated to be worked free or set true, as the joint of tongs is (common practice, no
    source).
    """
    stage = plan.by_step[step.number].get(zone)
    is_rivet = stage is not None and isinstance(stage.form_after, Rivet)
    holds = {zone, *held_zones(plan, step)}
    for one in later:
        if is_rivet and one.does(Does.QUENCHES) and holds & one.metal:
            return say(_RIVET_LOOSENS, one.number, one.title)
        if not is_rivet and takes_fire(one) and zone in one.metal and not one.does(Does.FASTENS):
            return say(_COLLAR_OPENS, one.number, one.title)
    return None
