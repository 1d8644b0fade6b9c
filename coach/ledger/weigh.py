"""Weighs a recipe before any fire is lit: whether its metal and its steel can do what its steps ask."""

from __future__ import annotations

from collections.abc import Iterator
from enum import StrEnum
from typing import NamedTuple

from coach.finish.laid import cleft_faults
from coach.fire.temper_colours import TEMPER_DOUBT_C
from coach.forms import said
from coach.ledger.hot_work import steels_of
from coach.ledger.laid_steel import laid_steels
from coach.ledger.nominal import Stage
from coach.ledger.plan import Plan
from coach.ledger.skinning import skins
from coach.ledger.tempered import NOT_TAUGHT, OwnCurves, row_of, temper_heat_c
from coach.ledger.weigh_heat import burnt, normalised_cold, out_of_order, struck_cold
from coach.ledger.working import reshapes, targets_of
from coach.metals.hardening import CannotHarden, hardening_advice
from coach.metals.tempering import RUN_HOURS, TABLE_HOURS, Tempered, tempered_hrc
from coach.metals.tempering_table import TemperingRow
from coach.operations import Does, operation
from coach.quantities import Kind, Limits, Span, Wanted, Words, celsius, mm, say
from coach.quantities.refusal import OutOfRange
from coach.recipe.model import Step

#: A length may lose this share to scale and rounding before it counts as gathered up (judgement).
_SHORTER_SHARE = 0.03
#: A thickness may be asked for this share above what there is, for its tolerance and the bar's (judgement).
_THICKER_SHARE = 0.05


class Cannot(StrEnum):
    """What will not work."""

    GATHER = "gathers no metal"  # a section grows and nothing upsets it
    MAKE_DRAWING = "ends beside the drawing"
    LEAVE_STEEL = "leaves too little steel"
    REMOVE_SKIN = "leaves the skin"
    HARDEN = "no steel to harden"
    HARDEN_FROM = "not a heat to harden from"
    TEMPER_TO = "not a heat for that hardness"
    HOLD_STEEL = "no cleft for the steel"
    STAND_HEAT = "too hot for the metal"
    GIVE_COLD = "too cold to be hammered"
    TURN = "too cold to be normalised"
    STAY_HARD = "out of order"  # a temper before the quench, or a fire after it


class Finding(NamedTuple):
    """One thing that will not work."""

    what: Cannot  # what will not work
    step: int  # the step that it shows at; 0 for the drawing
    zone: str  # the zone; empty where it is the whole step
    sentence: Words  # what is wrong, with its figures


def weigh(plan: Plan, own: OwnCurves = NOT_TAUGHT) -> tuple[Finding, ...]:
    """Everything that the metal cannot do, in the order of the steps; by the smith's own tempering curves.

    What stops the reckoning altogether (a hole that leaves no wall, laid steel bigger than its zone) is a
    LedgerError of `look_back` and never gets here.
    """
    gathered = (_gathered(stage) for way in plan.stages.values() for stage in way)
    found = [*(one for one in gathered if one is not None), *_against_drawing(plan), *weigh_steel(plan, own)]
    found += _heats(plan)
    return tuple(sorted(found, key=lambda finding: finding.step))


def _gathered(stage: Stage) -> Finding | None:
    """A section that grows while the zone gets shorter, where nothing upsets it."""
    step, zone = stage.step, stage.zone
    todo = operation(step.operation)
    moves_metal = reshapes(step, zone) and not (todo.GATHERS or todo.FIXES or stage.laid_mm3)
    if moves_metal and (thicker := _thickened(stage)) is not None:
        return thicker
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
    return _at_step(Cannot.GATHER, step, words, zone)


def _thickened(stage: Stage) -> Finding | None:
    """A thickness that is asked for and that the bar has not got: no tool but an upset thickens it."""
    have = stage.form_before.sizes_mm()
    for name in ("thickness", "end_thickness"):
        wanted_mm = targets_of(stage.step, stage.zone).get(name)
        source = stage.after.shape.worked_from(name, wanted_mm, have) if wanted_mm is not None else None
        if wanted_mm is not None and source is not None and wanted_mm > have[source] * (1.0 + _THICKER_SHARE):
            words = say(
                "{} is {} thick and is to come out {}; to {} gathers no metal: upset it first, or take "
                "heavier stock.",
                stage.zone,
                mm(have[source]),
                mm(wanted_mm),
                stage.step.operation,
            )
            return _at_step(Cannot.GATHER, stage.step, words, stage.zone)
    return None


def _against_drawing(plan: Plan) -> Iterator[Finding]:
    welds = plan.recipe.welds
    for zone, way in plan.stages.items():
        number = way[-1].step.number if way else 0
        sizes = (way[-1].form_after if way else plan.bar_of(zone)).sizes_mm()
        when = f"ready for the {welds[zone].zones[0]}" if zone in welds else "in the end"
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


def _at_step(what: Cannot, step: Step, words: Words, zone: str = "") -> Finding:
    """A finding whose sentence begins with its step."""
    return Finding(what, step.number, zone, say("Step {}, {}: {}", step.number, step.title, words))


def weigh_steel(plan: Plan, own: OwnCurves = NOT_TAUGHT) -> Iterator[Finding]:
    """Everything about the steel that will not do, step by step."""
    yield from _laid(plan)
    yield from _skins(plan)
    for step in plan.recipe.steps:
        if step.does(Does.QUENCHES):
            yield from _hardened(plan, step)
        elif step.does(Does.TEMPERS):
            yield from _tempered(plan, step, own)
        elif step.lays is not None:
            yield from _cleft(plan, step)


def _heats(plan: Plan) -> Iterator[Finding]:
    """Heats that the metal does not stand, and those that undo what was made before."""
    for step in plan.recipe.steps:
        if words := burnt(plan, step):
            yield _at_step(Cannot.STAND_HEAT, step, words)
        if words := struck_cold(plan, step):
            yield _at_step(Cannot.GIVE_COLD, step, words)
        if words := normalised_cold(plan, step):
            yield _at_step(Cannot.TURN, step, words)
    for step, zone, words in out_of_order(plan):
        yield _at_step(Cannot.STAY_HARD, step, words, zone)


def _laid(plan: Plan) -> Iterator[Finding]:
    for steel in laid_steels(plan):
        weld = plan.recipe.welds[steel.steel].number
        taken_back_mm = plan.recipe.drawing[steel.steel].taken_back_mm if steel.dimension == "length" else 0.0
        if steel.left.value < steel.remains.value and taken_back_mm > 0.0:
            words = say(
                "With {} taken back, about {} of hard steel is left in {}, and {} is wanted.",
                mm(taken_back_mm),
                steel.left,
                steel.zone,
                steel.remains,
            )
        elif not steel.enough:
            words = say(
                "Step {} lays the {} on with a {} of {}; to leave {} of steel it must be {}.",
                weld,
                steel.steel,
                steel.dimension,
                steel.drawn,
                steel.remains,
                steel.needed,
            )
        else:
            continue
        yield Finding(Cannot.LEAVE_STEEL, weld, steel.zone, words)


def _skins(plan: Plan) -> Iterator[Finding]:
    for skin in skins(plan):
        grinding = skin.grinding
        if grinding is not None and grinding.ground_mm < grinding.needed_mm:
            words = say(
                "Step {} grinds {} off the {} of {}, and by then the fire may have taken the carbon out of "
                "{}: leave {} for the stone.",
                grinding.step,
                mm(grinding.ground_mm),
                said(grinding.dimension),
                skin.zone,
                mm(grinding.skin_mm),
                mm(grinding.needed_mm),
            )
            yield Finding(Cannot.REMOVE_SKIN, grinding.step, skin.zone, words)


def _hardened(plan: Plan, step: Step) -> Iterator[Finding]:
    steels = steels_of(plan, step)
    if not steels:
        yield _at_step(Cannot.HARDEN, step, say("there is no steel in it to harden."))
    for metal in steels:
        try:
            advice = hardening_advice(metal)
        except CannotHarden:
            continue  # an unknown steel has no heat of its own to hold this against
        heat_c = step.temperature_c
        if heat_c is not None and not advice.low.value <= heat_c <= advice.high.value:
            heats = Span(advice.low.value, advice.high.value, Kind.TEMPERATURE)
            words = say("{} hardens from {}, not at {}.", metal.name, heats, celsius(heat_c))
            yield _at_step(Cannot.HARDEN_FROM, step, words)


def _tempered(plan: Plan, step: Step, own: OwnCurves) -> Iterator[Finding]:
    """Where no time is said it may be a run of colours or a soak, and either may be meant by a figure."""
    wanted, soak, heat_c = step.targets.get("hardness"), step.targets.get("soak"), temper_heat_c(step)
    if wanted is None or heat_c is None:
        return
    hours = (
        (soak.nominal / 3600.0,)
        if soak is not None
        else (RUN_HOURS,)
        if step.colour
        else (RUN_HOURS, TABLE_HOURS)
    )
    doubt_c = TEMPER_DOUBT_C if soak is None and step.colour else 0.0
    for metal in steels_of(plan, step):
        row = row_of(plan, step, metal, own)
        if row is None:
            continue
        left = [
            _tempered_or_none(row, heat_c + off_c, each)
            for each in hours
            for off_c in (-doubt_c, 0.0, doubt_c)
        ]
        known = [one for one in left if one is not None]
        if len(known) < len(left) or any(one.may_be(wanted.low, wanted.high) for one in known):
            continue
        words = say(
            "{} leaves {} at about {}, and {} is asked for.",
            celsius(heat_c),
            metal.name,
            known[1].words,
            Span(wanted.low, wanted.high, Kind.HARDNESS),
        )
        yield _at_step(Cannot.TEMPER_TO, step, words)


def _tempered_or_none(row: TemperingRow, heat_c: float, hours: float) -> Tempered | None:
    """What a temper leaves; None where the table does not reach."""
    try:
        return tempered_hrc(row, heat_c, hours)
    except OutOfRange:
        return None


def _cleft(plan: Plan, step: Step) -> Iterator[Finding]:
    """A weld with an inset lies in the last groove that was made in its zone."""
    inset_mm = step.amounts.get("inset_mm")
    if inset_mm is None:
        return
    zone = step.zones[0]
    groove = _last_groove(plan, step, zone)
    if groove is None:
        words = say(
            "the steel goes {} into {}, and no groove before it says that it is that deep; give the groove "
            "its groove depth.",
            mm(inset_mm),
            zone,
        )
        yield _at_step(Cannot.HOLD_STEEL, step, words, zone)
        return
    before = plan.by_step[groove.number][zone].form_before.sizes_mm()
    depth_mm = groove.targets["groove_depth"].nominal
    if depth_mm > before.get("length", depth_mm):
        words = say(
            "the cleft is {} deep and {} is {} long: it would reach into the next zone.",
            mm(depth_mm),
            zone,
            mm(before["length"]),
        )
        yield _at_step(Cannot.HOLD_STEEL, groove, words, zone)
    thick_mm = before.get("end_thickness", before.get("thickness", before.get("side", 0.0)))
    if thick_mm > 0.0:
        for fault in cleft_faults(depth_mm, inset_mm, thick_mm):
            yield _at_step(Cannot.HOLD_STEEL, groove, fault, zone)


def _last_groove(plan: Plan, step: Step, zone: str) -> Step | None:
    """The last groove before a step in a zone that says how deep it is."""
    for one in reversed(plan.recipe.steps[: step.number]):
        if one.does(Does.GROOVES) and zone in one.zones and "groove_depth" in one.targets:
            return one
    return None
