"""Which published column of hardness the steel of a tempering step stands in."""

from __future__ import annotations

import math
from collections.abc import Mapping
from types import MappingProxyType
from typing import TYPE_CHECKING, TypeAlias

from coach.ledger.hot_work import section_of, steels_of
from coach.ledger.plan import Plan
from coach.metals.baths import FIERCENESS, WATERS, cracks_in, is_fiercer
from coach.metals.grade_file import Grade
from coach.metals.tempering_table import (
    GENERAL_CONSTANT,
    SPECIMEN_MM,
    TemperingRow,
    hardened_through_mm,
    tempering_row,
)
from coach.quantities import Limits
from coach.quantities.refusal import NotKnown, OutOfRange
from coach.recipe.model import Step

if TYPE_CHECKING:
    from coach.metals.own_curve import OwnCurve

OwnCurves: TypeAlias = "Mapping[tuple[str, str], OwnCurve]"
"""The smith's own curves by the steel's name and the column it stands in; without a reading there is none."""
NOT_TAUGHT: OwnCurves = MappingProxyType({})

#: What is no thicker than this, in mm, is no thick piece, which grades name a fiercer bath for (judgement).
_THICK_MM = 0.5 * SPECIMEN_MM

_THICKNESSES = ("edge", "end_thickness", "end_diameter", "thickness")


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


def thickest_mm(plan: Plan, step: Step) -> float | None:
    """How thick a step's zones are where they are thickest; None where that is not known."""
    stages = (plan.by_step[step.number].get(zone) for zone in step.zones)
    forms = (stage.form_after for stage in stages if stage is not None)
    return max((2.0 * section_of(form).half_thickness_mm for form in forms), default=None)


def hardens_through(plan: Plan, step: Step, metal: Grade) -> bool:
    """Whether the bath is told to harden what lies in it right through; its own does, unless told."""
    own = metal.quench.medium if metal.quench is not None else ""
    bath = step.quench or own
    if bath == "air" and own not in ("", "air"):  # as `coach.ledger.weigh_treatment.in_air` tells
        return False
    through_mm, thick_mm = hardened_through_mm(metal.name, bath), thickness_mm(plan, step)
    if through_mm is None or thick_mm is None:
        return not own or bath not in FIERCENESS or not is_fiercer(own, bath)
    return thick_mm <= through_mm


def own_bath(plan: Plan, step: Step) -> str:
    """The bath that the steels of a quench ask for, where that of the step is milder and does not do.

    Empty where it does, and where that is not known.
    """
    steels = steels_of(plan, step)
    own = {_asked_bath(plan, step, metal) for metal in steels}
    if len(own) != 1 or step.quench not in FIERCENESS or not own <= {*FIERCENESS}:
        return ""
    (bath,) = own
    is_milder = is_fiercer(bath, step.quench)
    return bath if is_milder and not all(hardens_through(plan, step, metal) for metal in steels) else ""


def gentler_bath(plan: Plan, step: Step) -> str:
    """The bath of the steels of a quench where one of them does not stand that of the step.

    Empty where they do, and where that is not known or is not the same for all of them.
    """
    steels, thick_mm = steels_of(plan, step), thickness_mm(plan, step)
    if not any(cracks_in(step.quench, metal, thick_mm) for metal in steels):
        return ""
    own = {metal.quench.medium if metal.quench is not None else "" for metal in steels}
    return own.pop() if len(own) == 1 else ""


def _asked_bath(plan: Plan, step: Step, metal: Grade) -> str:
    """The bath of a steel, or that of its thick pieces for one that its own does not harden through."""
    if metal.quench is None:
        return ""
    own, thick = metal.quench.medium, metal.quench.thick
    is_thick = (thickness_mm(plan, step) or 0.0) > _THICK_MM and step.quench not in WATERS
    through = hardens_through(plan, step._replace(quench=own), metal)
    return thick if thick and is_thick and not through else own


def least_quenched(plan: Plan, step: Step) -> Limits | None:
    """The least hardness from a quench that took, by its steels' carbon; None where that cannot be told.

    Of what the quench does not harden where it is measured, and of layers that may have shared their carbon,
    nothing is told; nor how hard it may be at the most: that is doubted and not bad. Of steel that is laid on
    iron it is the steel that is measured.
    """
    from coach.metals.tempering import quenched_band_hrc

    steels = steels_of(plan, step)
    stages = plan.by_step[step.number]
    parts = {part for one in step.zones for part in (stages[one].after.parts if one in stages else (one,))}
    layered = any(len(plan.recipe.piece_of(part).shares) > 1 for part in parts)
    if not steels or layered:
        return None
    skin = step.quench in WATERS and (thickness_mm(plan, step) or math.inf) <= SPECIMEN_MM
    if any(one.carbon_share is None or not (skin or hardens_through(plan, step, one)) for one in steels):
        return None
    least = min(quenched_band_hrc(one.carbon_share or 0.0)[0] for one in steels)
    return Limits(least, least, math.inf, stated=True)


def as_a_run(plan: Plan, step: Step, limits: Limits, run_hours: float | None = None) -> Limits:
    """The heats at which a run of colours does in minutes what the soak of a step does at its own.

    `run_hours` is how long it took; None for the usual run.

    A colour tells of the few minutes that the film grew in (`coach.fire.temper_colours`), and no colour
    belongs to a soak. Without a soak, and where it cannot be reckoned, they are the step's own; those of a
    grade, where a step says none, are of the soak of its tables.
    """
    from coach.metals.tempering import RUN_HOURS, TABLE_HOURS, equal_temper_c

    soak, unsaid = step.targets.get("soak"), temper_heat_c(step) is None and "hardness" not in step.targets
    if soak is None and not unsaid:
        return limits
    hours = soak.nominal / 3600.0 if soak is not None else TABLE_HOURS

    row = next((row_of(plan, step, metal) for metal in steels_of(plan, step)), None)
    constant = row.constant if row is not None else GENERAL_CONSTANT

    def run_c(heat_c: float) -> float:
        if math.isinf(heat_c):
            return heat_c
        return equal_temper_c(heat_c, hours, run_hours or RUN_HOURS, constant)

    try:
        low, high = run_c(limits.low), run_c(limits.high)
        return Limits(run_c(limits.nominal), low, high, limits.stated)
    except OutOfRange:
        return limits


def temper_heat_c(step: Step) -> float | None:
    """At what heat a step tempers, °C: its own figure, else that of its colour; None without either."""
    aimed = step.targets.get("temperature")
    if aimed is not None:
        return aimed.nominal
    return step.temperature_c if step.temperature_c is not None else _colour_c(step)


def _colour_c(step: Step) -> float | None:
    from coach.fire.temper_colours import TEMPER_COLOURS

    try:
        return TEMPER_COLOURS.temperature_c(step.colour) if step.colour else None
    except NotKnown:
        return None


def is_colour_of_run(run: Limits, temperature_c: float) -> bool:
    """Whether a temper's heat in °C shows the colour that a run does what is wanted at."""
    from coach.fire.colours import NO_COLOUR, PAST_COLOURS
    from coach.fire.temper_colours import TEMPER_COLOURS

    try:
        aimed, shown = (TEMPER_COLOURS.name_of(one) for one in (run.nominal, temperature_c))
    except OutOfRange:
        return False
    return aimed == shown and aimed not in (NO_COLOUR, PAST_COLOURS)


def is_colour_of(step: Step, temperature_c: float) -> bool:
    """Whether a temper's heat in °C is that of the colour that its recipe names."""
    colour_c = _colour_c(step)
    return colour_c is not None and math.isclose(colour_c, temperature_c)


def quenched_in(plan: Plan, step: Step, metal: Grade) -> str:
    """What the zones of a step were last hardened in, by the recipe; else the grade's own quench."""
    for one in reversed(plan.recipe.steps[: step.number]):
        if one.quench and set(one.zones) & set(step.zones):
            return one.quench
    return metal.quench.medium if metal.quench is not None else ""
