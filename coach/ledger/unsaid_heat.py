"""What a treatment is held to where its step says no heat: what its steels are treated at by their grades."""

from __future__ import annotations

from collections.abc import Iterator
from math import inf

from coach.ledger.hot_work import steels_of
from coach.ledger.plan import Plan
from coach.ledger.tempered import row_of, temper_heat_c
from coach.metals.grade_file import Grade
from coach.operations import Does
from coach.quantities import Limits
from coach.quantities.refusal import OutOfRange
from coach.recipe.model import Step


def unsaid_heat(plan: Plan, step: Step) -> Limits | None:
    """The heats of a quench, a normalising or a temper that says none, °C; None where nothing is known.

    A temper that says what hardness is wanted is held to the heats that the tables leave that at.
    """
    if says_its_heat(step):
        return None
    if step.does(Does.TEMPERS):
        return _together(_tempers(plan, step, metal) for metal in steels_of(plan, step))
    if step.does(Does.QUENCHES):
        hardened = ((one.hardening_low_c, one.hardening_high_c) for one in steels_of(plan, step))
        return _together(_between(*heats) for heats in hardened)
    if step.does(Does.NORMALISES):
        normalised = ((one.normalising_low_c, one.normalising_high_c) for one in steels_of(plan, step))
        return _together(_between(*heats) for heats in normalised)
    return None


def left_unsaid(plan: Plan, step: Step) -> Limits | None:
    """The hardness that a temper which says neither heat nor hardness leaves at its steels' own heats, HRC.

    As much harder and softer as the tables doubt; None where they tell nothing of it.
    """
    if not step.does(Does.TEMPERS) or says_its_heat(step) or "hardness" in step.targets:
        return None
    return _together(_leaves(plan, step, metal) for metal in steels_of(plan, step))


def says_its_heat(step: Step) -> bool:
    """Whether a treatment says its heat, by a figure or a colour."""
    heat_c = temper_heat_c(step) if step.does(Does.TEMPERS) else step.temperature_c
    return heat_c is not None or "temperature" in step.targets or bool(step.colour)


def _between(low_c: float | None, high_c: float | None) -> Limits | None:
    if low_c is None or high_c is None:
        return None
    return Limits(0.5 * (low_c + high_c), low_c, high_c, stated=True)


def _tempers(plan: Plan, step: Step, metal: Grade) -> Limits | None:
    wanted, row = step.targets.get("hardness"), row_of(plan, step, metal)
    if wanted is None or row is None:
        return _between(metal.tempering_low_c, metal.tempering_high_c)
    from coach.metals.tempering import RUN_HOURS, TABLE_HOURS, temper_for

    soak = step.targets.get("soak")
    # Where no time is said it may be a soak or a run of minutes, which takes more heat.
    hours = [soak.nominal / 3600.0] if soak is not None else [TABLE_HOURS, RUN_HOURS]
    hrc = max(wanted.low, 1.0), min(wanted.high, 100.0)
    try:
        found = [temper_for(row, hrc, each) for each in hours]
    except OutOfRange:
        return None
    low_c, high_c = found[0].low.value, found[-1].high.value
    return Limits(0.5 * (low_c + high_c), low_c, high_c, stated=True)


def _leaves(plan: Plan, step: Step, metal: Grade) -> Limits | None:
    from coach.ledger.hottest_temper import left_by
    from coach.metals.tempering import TABLE_HOURS

    row, own = row_of(plan, step, metal), _between(metal.tempering_low_c, metal.tempering_high_c)
    if row is None or own is None:
        return None
    first_c, last_c = row.points[0][0], row.points[-1][0]
    hard = left_by(row, max(own.low, first_c), TABLE_HOURS)
    soft = left_by(row, min(own.high, last_c), TABLE_HOURS)
    if hard is None or soft is None:
        return None
    low, high = soft.hrc - soft.softer_hrc, hard.hrc + hard.harder_hrc
    return Limits(0.5 * (low + high), low, high, stated=True)


def _together(found: Iterator[Limits | None]) -> Limits | None:
    """What does for all of them; None where one is not known, or no two agree."""
    each = list(found)
    known = [one for one in each if one is not None]
    if not known or len(known) < len(each):
        return None
    low, high = max((one.low for one in known), default=-inf), min((one.high for one in known), default=inf)
    return Limits(0.5 * (low + high), low, high, stated=True) if low < high else None
