"""What the steel, its edge and the finished head say of a step, in the shop's words."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial
from typing import TYPE_CHECKING

from coach.ledger.course import Course
from coach.ledger.hot_work import steels_of
from coach.ledger.plan import Plan
from coach.metals.grade import Grade
from coach.operations import Does
from coach.quantities import Limits, Shown, write_length, write_mass, write_temperature
from coach.quantities.refusal import OutOfRange
from coach.recipe.model import Step
from coach.telling.words import write

if TYPE_CHECKING:
    from coach.ledger.head import Head

#: A run of temper colours lasts so long, against an hour or two in an oven (judgement).
_RUN_MINUTES = 3.0
#: Media from the mildest to the fiercest.
_FIERCENESS = ("air", "oil", "salt", "fast oil", "water", "brine")


def steel_advice(plan: Plan, step: Step, shown: Shown, course: Course | None = None) -> tuple[str, ...]:
    """What is to be known of a step besides what the fire says; nothing for most forging.

    Args:
        plan: the plan.
        step: one of its steps.
        shown: the units to tell it in.
        course: the step in hand as far as it has gone; None for a plan.
    """
    if step.does(Does.BEVELS) or step.does(Does.BENDS):
        from coach.bench.bevel_view import bevel_advice

        return tuple(bevel_advice(plan, step, course, shown))
    return tuple(told for what, tell in _TELL.items() if step.does(what) for told in tell(plan, step, shown))


def head_text(head: Head, shown: Shown) -> str:
    """A head as "about 820 g, balances 14 mm from the middle of the eye, towards the bit"."""
    told = f"about {write_mass(head.mass_g, shown)}"
    if head.balance_mm is None:
        return told
    at = write_length(head.balance_mm, shown)
    return f"{told}, balances {at} from the middle of the eye, towards the {head.towards}"


def _harden(plan: Plan, step: Step, shown: Shown) -> Iterator[str]:
    from coach.metals.hardening import CannotHarden, coupon_test, hardening_advice
    from coach.metals.tempering import as_quenched_hrc

    say = partial(write_temperature, shown=shown)
    for metal in steels_of(plan, step):
        try:
            advice = hardening_advice(metal)
        except CannotHarden as reason:
            yield write(reason.words, shown)
            yield from coupon_test()
            continue
        heat_c = step.temperature_c
        if heat_c is not None and not advice.low_c <= heat_c <= advice.high_c:
            how = "too cold to harden through" if heat_c < advice.low_c else "so hot that its grain grows"
            yield (
                f"{say(heat_c)} is {how}: {metal.name} hardens from {say(advice.low_c)} to "
                f"{say(advice.high_c)}."
            )
        yield from _quench(step, metal)
        yield f"{metal.name}: {write(advice.magnet, shown)}"
        yield f"{advice.soak} {write(advice.quench_words, shown)}"
        if metal.carbon_share is not None:
            hrc = as_quenched_hrc(metal.carbon_share)
            yield f"Quenched right, {metal.name} is about {hrc:.0f} HRC: a file skates. Temper it at once."


def _quench(step: Step, metal: Grade) -> Iterator[str]:
    """A word where the recipe quenches in something else than the grade's own medium."""
    if not step.quench or metal.quench is None or step.quench == metal.quench.medium:
        return
    asked, own = _FIERCENESS.index(step.quench), _FIERCENESS.index(metal.quench.medium)
    how = "can crack it" if asked > own else "may leave it soft where it is thick"
    yield f"{metal.name} is quenched in {metal.quench.medium}; {step.quench} {how}. {metal.quench.words}"


def _temper(plan: Plan, step: Step, shown: Shown) -> Iterator[str]:
    from coach.metals.tempering import tempering_row

    for metal in steels_of(plan, step):
        row = tempering_row(metal.name)
        if row is None:
            yield f"No tempering table is known for {metal.name}: temper a coupon beside it and flex that."
            continue
        soak = step.targets.get("soak")
        hours = soak.nominal / 3600.0 if soak is not None else _RUN_MINUTES / 60.0
        try:
            yield from _tempered(metal, step, hours, by_colour=soak is None, shown=shown)
        except OutOfRange as reason:
            yield write(reason.words, shown)


def _tempered(metal: Grade, step: Step, hours: float, *, by_colour: bool, shown: Shown) -> Iterator[str]:
    from coach.fire.temper_colours import temper_name
    from coach.metals.tempering import (
        TABLE_HOURS,
        embrittlement,
        equal_temper_c,
        temper_for,
        tempered_hrc,
        tempering_row,
    )

    say = partial(write_temperature, shown=shown)
    row = tempering_row(metal.name)
    assert row is not None
    wanted = step.targets.get("hardness")
    heat_c = step.targets["temperature"].nominal if "temperature" in step.targets else step.temperature_c
    if by_colour and heat_c is not None:
        yield (
            f"By colour, some {_RUN_MINUTES:.0f} minutes at {say(heat_c)}, {temper_name(heat_c)}, do what "
            f"{say(equal_temper_c(heat_c, hours, TABLE_HOURS, row.constant))} does in an hour and a half."
        )
    if heat_c is not None:
        try:
            left = tempered_hrc(row, heat_c, hours)
        except OutOfRange:
            (first_c, hardest), *_ = row.points
            yield (
                f"That leaves {metal.name} harder than the tables tell: they begin with {hardest:.0f} HRC, "
                f"{say(first_c)} for an hour and a half."
            )
        else:
            told = f"{metal.name} is left at about {left.hrc:.0f} HRC, give or take {left.doubt_hrc:.0f}."
            yield f"{told} {left.note}".strip()
            if wanted is not None and not _near(left.hrc, left.doubt_hrc, wanted):
                yield f"That is not the {wanted.low:.0f} to {wanted.high:.0f} HRC asked for."
    if wanted is not None:
        low, high = max(wanted.low, 1.0), min(wanted.high, 100.0)
        found = temper_for(row, (low, high), hours)
        yield (
            f"For {low:.0f} to {high:.0f} HRC: {say(found.low_c)} to {say(found.high_c)}, "
            f"{temper_name(found.nominal_c)}, for {_time(hours)}."
        )
        if found.embrittles:
            yield write(found.embrittles, shown)
    elif heat_c is not None and (brittle := embrittlement(heat_c, heat_c)):
        yield write(brittle, shown)


def _near(hrc: float, doubt: float, wanted: Limits) -> bool:
    return wanted.low - doubt <= hrc <= wanted.high + doubt


def _time(hours: float) -> str:
    minutes = round(60.0 * hours)
    return f"{minutes} min" if minutes < 60 or minutes % 60 else f"{minutes // 60} h"


def _normalise(plan: Plan, step: Step, shown: Shown) -> Iterator[str]:
    from coach.metals.hardening import CannotHarden, hardening_advice

    for metal in steels_of(plan, step):
        try:
            advice = hardening_advice(metal)
        except CannotHarden:
            continue
        yield f"{metal.name}: {write(advice.normalise_words, shown)}"


def _edge(plan: Plan, step: Step, shown: Shown) -> Iterator[str]:
    """How wide the bevel of an angle is on the thickness that comes to the stone."""
    from coach.finish.edge import bevel_width_mm

    angle, stage = step.targets.get("edge_angle"), plan.by_step[step.number].get(step.zones[0])
    if angle is None or stage is None:
        return
    sizes = stage.form_before.sizes_mm()
    thick_mm = sizes.get("end_thickness", sizes.get("thickness"))
    if thick_mm is None:
        return
    say = partial(write_length, shown=shown)
    try:
        both, one = (bevel_width_mm(angle.nominal, thick_mm, 0.0, sides) for sides in (2, 1))
    except OutOfRange as reason:
        yield write(reason.words, shown)
        return
    yield (
        f"{angle.nominal:.0f}° on an edge {say(thick_mm)} thick is a bevel {say(both)} wide on either side, "
        f"or {say(one)} on one side alone."
    )


def _haft(plan: Plan, step: Step, shown: Shown) -> Iterator[str]:
    from coach.ledger.head import head

    found = head(plan)
    if found is not None:
        yield f"The head as drawn weighs {head_text(found, shown)}."


_TELL = {
    Does.QUENCHES: _harden,
    Does.TEMPERS: _temper,
    Does.NORMALISES: _normalise,
    Does.WORKS_AN_EDGE: _edge,
    Does.FITS_A_HAFT: _haft,
}
