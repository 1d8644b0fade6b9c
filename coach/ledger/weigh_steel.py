"""Weighs what a recipe does with its steel: too thin, too deep a skin, a wrong heat, a cleft too shallow."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from coach.finish.laid import cleft_faults
from coach.forms import said
from coach.ledger.finding import Finding
from coach.ledger.hot_work import steels_of
from coach.ledger.laid_steel import laid_steels
from coach.ledger.plan import Plan
from coach.ledger.skinning import skins
from coach.metals.hardening import CannotHarden, hardening_advice
from coach.metals.tempering import TemperingError, tempered_hrc, tempering_row
from coach.operations import Does
from coach.quantities import Shown, write_length, write_temperature
from coach.recipe.model import Step
from coach.telling.words import write


def weigh_steel(plan: Plan, shown: Shown) -> Iterator[Finding]:
    """Everything about the steel that will not do, step by step."""
    yield from _laid(plan, shown)
    yield from _skins(plan, shown)
    for step in plan.recipe.steps:
        if step.does(Does.QUENCHES):
            yield from _hardened(plan, step, shown)
        elif step.does(Does.TEMPERS):
            yield from _tempered(plan, step, shown)
        elif step.lays is not None:
            yield from _cleft(plan, step, shown)


def _laid(plan: Plan, shown: Shown) -> Iterator[Finding]:
    say = partial(write_length, shown=shown)
    for steel in laid_steels(plan):
        if steel.left_mm < steel.remains_mm and steel.taken_back_mm > 0.0:
            yield Finding(
                steel.weld,
                f"With {say(steel.taken_back_mm)} taken back, about {say(steel.left_mm)} of hard steel is "
                f"left in {steel.zone}, and {say(steel.remains_mm)} is wanted.",
            )
        elif steel.drawn_mm < steel.needed_mm:
            yield Finding(
                steel.weld,
                f"Step {steel.weld} lays the {steel.steel} on with a {steel.dimension} of "
                f"{say(steel.drawn_mm)}; to leave {say(steel.remains_mm)} of steel it must be "
                f"{say(steel.needed_mm)}.",
            )


def _skins(plan: Plan, shown: Shown) -> Iterator[Finding]:
    say = partial(write_length, shown=shown)
    for skin in skins(plan):
        grinding = skin.grinding
        if grinding is not None and grinding.ground_mm < grinding.needed_mm:
            yield Finding(
                grinding.step,
                f"Step {grinding.step} grinds {say(grinding.ground_mm)} off the "
                f"{said(grinding.dimension)} of {skin.zone}, and by then the fire may have taken the carbon "
                f"out of {say(grinding.skin_mm)}: leave {say(grinding.needed_mm)} for the stone.",
            )


def _hardened(plan: Plan, step: Step, shown: Shown) -> Iterator[Finding]:
    say = partial(write_temperature, shown=shown)
    steels = steels_of(plan, step)
    if not steels:
        yield Finding(step.number, f"Step {step.number}, {step.title}: there is no steel in it to harden.")
    for metal in steels:
        try:
            advice = hardening_advice(metal)
        except CannotHarden:
            continue  # an unknown steel has no heat of its own to hold this against
        heat_c = step.temperature_c
        if heat_c is not None and not advice.low_c <= heat_c <= advice.high_c:
            yield Finding(
                step.number,
                f"Step {step.number}, {step.title}: {metal.name} hardens from {say(advice.low_c)} to "
                f"{say(advice.high_c)}, not at {say(heat_c)}.",
            )


def _tempered(plan: Plan, step: Step, shown: Shown) -> Iterator[Finding]:
    wanted, soak = step.targets.get("hardness"), step.targets.get("soak")
    if wanted is None or soak is None or step.temperature_c is None:
        return
    for metal in steels_of(plan, step):
        row = tempering_row(metal.name)
        try:
            left = tempered_hrc(row, step.temperature_c, soak.nominal / 60.0) if row is not None else None
        except TemperingError:
            continue
        if left is not None and not wanted.low - left.doubt_hrc <= left.hrc <= wanted.high + left.doubt_hrc:
            yield Finding(
                step.number,
                f"Step {step.number}, {step.title}: {write_temperature(step.temperature_c, shown)} leaves "
                f"{metal.name} at about {left.hrc:.0f} HRC, give or take {left.doubt_hrc:.0f}, and "
                f"{wanted.low:.0f} to {wanted.high:.0f} is asked for.",
            )


def _cleft(plan: Plan, step: Step, shown: Shown) -> Iterator[Finding]:
    """A weld with an inset lies in the last groove that was made in its zone."""
    inset_mm = step.amounts.get("inset_mm")
    if inset_mm is None:
        return
    zone = step.zones[0]
    grooves = [
        one
        for one in plan.recipe.steps[: step.number]
        if one.does(Does.GROOVES) and zone in one.zones and "groove_depth" in one.targets
    ]
    if not grooves:
        yield Finding(
            step.number,
            f"Step {step.number}, {step.title}: the steel goes {write_length(inset_mm, shown)} into {zone}, "
            f"and no groove before it says that it is that deep; give the groove its groove depth.",
        )
        return
    groove = grooves[-1]
    before = plan.by_step[groove.number][zone].form_before.sizes_mm()
    depth_mm = groove.targets["groove_depth"].nominal
    if depth_mm > before.get("length", depth_mm):
        yield Finding(
            groove.number,
            f"Step {groove.number}, {groove.title}: the cleft is {write_length(depth_mm, shown)} deep and "
            f"{zone} is {write_length(before['length'], shown)} long: it would reach into the next zone.",
        )
    thick_mm = before.get("end_thickness", before.get("thickness", before.get("side", 0.0)))
    if thick_mm > 0.0:
        for fault in cleft_faults(depth_mm, inset_mm, thick_mm):
            yield Finding(groove.number, f"Step {groove.number}, {groove.title}: {write(fault, shown)}")
