"""Weighs a recipe before any fire is lit: whether its metal and its steel can do what its steps ask."""

from __future__ import annotations

from collections.abc import Iterator
from enum import StrEnum
from itertools import chain, islice
from typing import Final, NamedTuple

from coach.finish.laid import cleft_faults
from coach.forms import said
from coach.ledger.hot_work import steels_of
from coach.ledger.laid_steel import laid_steels
from coach.ledger.nominal import Stage
from coach.ledger.plan import Plan
from coach.ledger.quenched_beside import never_tempered
from coach.ledger.skinning import skins, told_upwards_mm
from coach.ledger.tempered import NOT_TAUGHT, OwnCurves
from coach.ledger.weigh_bend import arc_too_long, not_on_edge
from coach.ledger.weigh_bigger import gathered, not_upset, put_on, welded_bigger
from coach.ledger.weigh_cold import overworked_cold
from coach.ledger.weigh_cut import circle_too_wide, cuts_others_off
from coach.ledger.weigh_edge import edge_without_carbon, flatter_than_body, no_edge
from coach.ledger.weigh_ends import exchanged_ends
from coach.ledger.weigh_filed import filed_thinner
from coach.ledger.weigh_fit import badly_fitted
from coach.ledger.weigh_groove import groove_too_large
from coach.ledger.weigh_haft import haft_without_seat
from coach.ledger.weigh_heat import burnt, out_of_order, struck_cold
from coach.ledger.weigh_hole import drifted_solid, hole_closed, slug_too_thick
from coach.ledger.weigh_joint import badly_riveted
from coach.ledger.weigh_laid import too_little_steel
from coach.ledger.weigh_loose import worked_loose
from coach.ledger.weigh_order import spoilt_by_fire
from coach.ledger.weigh_same_heat import no_heat_left
from coach.ledger.weigh_section import drawn_by_piercing, other_section, twisted_off
from coach.ledger.weigh_sizes import (
    all_proud,
    driven_too_long,
    first_step_on,
    fitting_shares,
    not_made,
    off_its_seat,
    split_otherwise,
    too_fine,
    too_short,
)
from coach.ledger.weigh_struck import struck_hard
from coach.ledger.weigh_temper import wrongly_tempered
from coach.ledger.weigh_thinned import thinned_by_fire
from coach.ledger.weigh_treatment import in_air, wrongly_treated
from coach.ledger.weigh_weld import no_welding_heat, nothing_to_close
from coach.ledger.working import reshapes
from coach.metals.hardening import CannotHarden, hardening_advice
from coach.operations import Does, operation
from coach.quantities import NOTHING, Kind, Limits, Span, Wanted, Words, celsius, mm, run_on, say
from coach.recipe.model import Step

#: Heats that are reckoned from a composition may be so far off, in °C: they come out up to 50 colder than
#: what is published (judgement).
_RECKONED_OFF_C = 50.0


class Cannot(StrEnum):
    """What will not work."""

    GATHER = "gathers no metal"  # a section grows and nothing upsets it
    PUT_ON = "only takes metal away"
    MAKE_DRAWING = "ends beside the drawing"
    LEAVE_STEEL = "leaves too little steel"
    REMOVE_SKIN = "leaves the skin"
    HARDEN_EDGE = "no carbon left at the edge"
    HARDEN = "no steel to harden"
    HARDEN_FROM = "not a heat to harden from"
    TEMPER_TO = "not a heat for that hardness"
    HOLD_STEEL = "no cleft for the steel"
    STAND_HEAT = "too hot for the metal"
    GIVE_COLD = "too cold to be hammered"
    WELD_COLD = "no heat to weld at"
    TREAT = "not how the steel is treated"
    BE_STRUCK = "too hard to be struck"
    REST_HARD = "quenched and never tempered"
    STAY_HARD = "out of order"  # a temper before the quench, or a fire after it
    STAY_DONE = "spoilt by a later fire"  # a haft, an edge, a fit or a joint that is finished too early
    FASTEN = "no sound joint"
    TURN = "twisted further than metal follows"
    STAY_ON = "cut off with its neighbour"
    SUFFICE = "bar too short"
    MAKE_SIZE = "the metal makes another size"
    KEEP_SECTION = "another section than its bar's"  # which is bent, turned or rolled as it is
    CLOSE = "nothing to weld shut"
    HOLD_TOGETHER = "layers that nothing welds"
    OPEN = "no hole to be made so"
    DRIVE_UP = "upset past its length"
    SEAT = "steel off its seat"  # or a part that does not fit its hole
    TELL = "finer than the hand"
    RUN_SO = "ends exchanged"


#: What ends that are exchanged bring along, and is told as that alone.
_OF_EXCHANGED_ENDS: Final = (Cannot.GATHER, Cannot.MAKE_DRAWING)


class Finding(NamedTuple):
    """One thing that will not work."""

    what: Cannot  # what will not work
    step: int  # the step that it shows at; 0 for the drawing
    zone: str  # the zone; empty where it is the whole step
    sentence: Words  # what is wrong, with its figures
    piece: str = ""  # whose bar it is about; empty where it is about none
    line: int = 0  # in the recipe's file; 0 where that is not known
    column: int = 0

    @property
    def placed(self) -> Words:
        """The sentence with where it stands, where that is known."""
        return placed_words(self.sentence, self.line, self.column)


def placed_words(sentence: Words, line: int, column: int) -> Words:
    """A sentence with where it stands in the recipe's file; with line 0, alone."""
    return run_on((sentence, say("In the recipe: line {}, column {}.", line, column) if line else NOTHING))


def weigh(plan: Plan, own: OwnCurves = NOT_TAUGHT) -> tuple[Finding, ...]:
    """Everything that the metal cannot do, in the order of the steps; by the smith's own tempering curves.

    What stops the reckoning altogether (a hole that leaves no wall, laid steel bigger than its zone) is a
    LedgerError of `look_back` and never gets here.
    """
    found = [*_bigger(plan), *_against_drawing(plan), *weigh_steel(plan, own)]
    found += [*_heats(plan), *_sizes(plan)]
    told_once = {one.zone for one in found if one.what in (Cannot.FASTEN, Cannot.PUT_ON)}
    turned = {zone: _at_step(Cannot.RUN_SO, step, words, zone) for step, zone, words in exchanged_ends(plan)}
    found = [one for one in found if not (one.zone in turned and one.what in _OF_EXCHANGED_ENDS)]
    found += turned.values()
    told = (one for one in found if not (one.what is Cannot.MAKE_DRAWING and one.zone in told_once))
    return tuple(sorted(told, key=lambda finding: finding.step))  # what is told of is told once


def _bigger(plan: Plan) -> Iterator[Finding]:
    """What is to come out bigger than it is, where nothing makes it so."""
    for stage in chain.from_iterable(plan.stages.values()):
        if words := put_on(stage):
            yield _at_step(Cannot.PUT_ON, stage.step, words, stage.zone)
        if words := gathered(plan, stage):
            yield _at_step(Cannot.GATHER, stage.step, words, stage.zone)
        if words := welded_bigger(plan, stage):
            yield _at_step(Cannot.GATHER, stage.step, words, stage.zone)
        if words := not_upset(stage):
            yield _at_step(Cannot.MAKE_SIZE, stage.step, words, stage.zone)


def _against_drawing(plan: Plan) -> Iterator[Finding]:
    welds = plan.recipe.welds
    for zone, way in plan.stages.items():
        number = way[-1].step.number if way else 0
        sizes = (way[-1].form_after if way else plan.bar_of(zone)).sizes_mm()
        follows = _width_follows(way)
        when = f"ready for the {welds[zone].zones[0]}" if zone in welds else "in the end"
        if zone in plan.recipe.piece_of(zone).branches:
            when = "when it is split"
        holes: set[tuple[float, Limits]] = set()
        for name, limits in plan.recipe.drawing[zone].limits.items():
            if name in sizes and not _within(sizes[name], limits):
                if "hole" in name and (sizes[name], limits) in holes:
                    continue  # of a round hole, and of its far mouth, it is told once
                holes.add((sizes[name], limits))
                words = say(
                    "The steps leave the {} of {} at {} {}, and the drawing wants {}.",
                    said(name),
                    zone,
                    mm(sizes[name]),
                    when,
                    Wanted(limits),
                )
                by_fire = thinned_by_fire(plan.recipe, way, name, limits.low)
                words = run_on((words, fitting_shares(plan, zone, name), by_fire), " ")
                if follows is not None and name == follows.after.free:
                    words = run_on((words, say(_FREE_TOLD, follows.step.number, said(name))), " ")
                at = next((one.step.number for one in reversed(way) if one.works(name)), number)
                yield Finding(Cannot.MAKE_DRAWING, at, zone, words)
                if follows is not None and name == follows.after.free:
                    break  # the other sizes are off by the same


_FREE_TOLD = "In step {} its {} follows from the metal: write long free there where its length is to follow."


def _width_follows(way: tuple[Stage, ...]) -> Stage | None:
    """The last step that shapes a zone, where it asks for the width and yet leaves it to the metal."""
    stage = next((one for one in reversed(way) if reshapes(one.step, one.zone)), None)
    if stage is None or stage.after.free == "length" or "length" not in stage.after.shape.dimensions:
        return None
    free = operation(stage.step.operation).FREE
    return stage if free == stage.after.free and free in stage.step.targets else None


def _within(size: float, limits: Limits) -> bool:
    slack = 1e-6 * abs(limits.nominal)
    return limits.low - slack <= size <= limits.high + slack


def _at_step(what: Cannot, step: Step, words: Words, zone: str = "") -> Finding:
    """A finding whose sentence begins with its step."""
    return Finding(what, step.number, zone, say("Step {}, {}: {}", step.number, step.title, words))


def is_left_soft_in_air(plan: Plan, found: Finding) -> bool:
    """Whether a finding says that a step's steel does not harden in the air that it is quenched in."""
    if found.what is not Cannot.TREAT or not found.step:
        return False
    step = plan.recipe.steps[found.step - 1]
    return any(found.sentence == _at_step(Cannot.TREAT, step, words).sentence for words in in_air(plan, step))


def weigh_steel(plan: Plan, own: OwnCurves = NOT_TAUGHT) -> Iterator[Finding]:
    """Everything about the steel that will not do, step by step."""
    yield from _laid(plan)
    yield from _skins(plan)
    for step in plan.recipe.steps:
        if step.does(Does.QUENCHES):
            yield from _hardened(plan, step)
        elif step.does(Does.TEMPERS):
            for words in wrongly_tempered(plan, step, own):
                yield _at_step(Cannot.TEMPER_TO, step, words)
        elif step.lays is not None:
            yield from _cleft(plan, step)
    struck = tuple(struck_hard(plan, own))
    for step, zone, words in struck:
        yield _at_step(Cannot.BE_STRUCK, step, words, zone)
    for step, zone, words in never_tempered(plan, {zone for _, zone, _ in struck}):
        yield _at_step(Cannot.REST_HARD, step, words, zone)


def _heats(plan: Plan) -> Iterator[Finding]:
    """Heats that the metal does not stand, and those that undo what was made before."""
    for step in plan.recipe.steps:
        if words := burnt(plan, step):
            yield _at_step(Cannot.STAND_HEAT, step, words)
        if words := no_welding_heat(plan, step):
            yield _at_step(Cannot.WELD_COLD, step, words)
        elif words := no_heat_left(plan, step) or struck_cold(plan, step) or overworked_cold(plan, step):
            yield _at_step(Cannot.GIVE_COLD, step, words)
        for words in wrongly_treated(plan, step):
            yield _at_step(Cannot.TREAT, step, words)
    for step, zone, words in out_of_order(plan):
        yield _at_step(Cannot.STAY_HARD, step, words, zone)
    for step, zone, words in spoilt_by_fire(plan):
        yield _at_step(Cannot.STAY_DONE, step, words, zone)


def _sizes(plan: Plan) -> Iterator[Finding]:
    """Sizes and lengths that cannot come out as they are asked for."""
    beside = {one.piece for row in plan.rows for one in row.pieces[1:]}
    for name, piece in plan.pieces.items():
        if name in beside:  # told of the first of its row
            continue
        if words := too_short(plan, piece):
            yield Finding(Cannot.SUFFICE, first_step_on(plan, name), "", words, name)
    for stage in chain.from_iterable(plan.stages.values()):
        if words := not_made(plan, stage):
            yield _at_step(Cannot.MAKE_SIZE, stage.step, words, stage.zone)
        if words := split_otherwise(stage):
            yield _at_step(Cannot.MAKE_SIZE, stage.step, words, stage.zone)
        if words := filed_thinner(plan, stage) or hole_closed(stage):
            yield _at_step(Cannot.MAKE_SIZE, stage.step, words, stage.zone)
        elif words := slug_too_thick(stage) or drifted_solid(stage):
            yield _at_step(Cannot.OPEN, stage.step, words, stage.zone)
        if words := groove_too_large(plan, stage):
            yield _at_step(Cannot.MAKE_SIZE, stage.step, words, stage.zone)
        if words := other_section(plan, stage) or drawn_by_piercing(stage):
            yield _at_step(Cannot.KEEP_SECTION, stage.step, words, stage.zone)
        elif words := nothing_to_close(plan, stage):
            yield _at_step(Cannot.CLOSE, stage.step, words, stage.zone)
        if words := not_on_edge(stage) or arc_too_long(stage) or circle_too_wide(stage):
            yield _at_step(Cannot.MAKE_SIZE, stage.step, words, stage.zone)
        if words := twisted_off(stage):
            yield _at_step(Cannot.TURN, stage.step, words, stage.zone)
        if (words := driven_too_long(stage)) and not overworked_cold(plan, stage.step):
            yield _at_step(Cannot.DRIVE_UP, stage.step, words, stage.zone)
    for step in plan.recipe.steps:
        if words := no_edge(step) or flatter_than_body(plan, step) or all_proud(step):
            yield _at_step(Cannot.MAKE_SIZE, step, words, step.zones[0])
        if words := off_its_seat(plan, step):
            yield _at_step(Cannot.SEAT, step, words, step.zones[0])
        if words := cuts_others_off(plan, step):
            yield _at_step(Cannot.STAY_ON, step, words, step.zones[0])
        for words in islice(badly_riveted(plan, step), 1):  # one rivet, one thing to put right first
            yield _at_step(Cannot.FASTEN, step, words, step.zones[0])
        if words := badly_fitted(plan, step) or haft_without_seat(plan, step):
            yield _at_step(Cannot.SEAT, step, words, step.zones[0])
    for step, zone, words in worked_loose(plan):
        yield _at_step(Cannot.HOLD_TOGETHER, step, words, zone)
    for number, zone, words in too_fine(plan):
        yield Finding(Cannot.TELL, number, zone, words)


def _laid(plan: Plan) -> Iterator[Finding]:
    for steel in laid_steels(plan):
        if words := too_little_steel(plan, steel):
            yield Finding(Cannot.LEAVE_STEEL, plan.recipe.welds[steel.steel].number, steel.zone, words)


def _skins(plan: Plan) -> Iterator[Finding]:
    for skin in skins(plan):
        grinding = skin.grinding
        if grinding is not None and not grinding.is_enough:
            words = say(
                "Step {} grinds {} off the {} of {}, and by then the fire may have taken the carbon out of "
                "{}: leave {} for the stone, which takes a tenth of sound steel with it.",
                *(grinding.step, mm(grinding.ground_mm), said(grinding.dimension), skin.zone),
                mm(grinding.skin_mm),
                mm(told_upwards_mm(grinding.needed_mm)),
            )
            yield Finding(Cannot.REMOVE_SKIN, grinding.step, skin.zone, words)
        elif grinding is None and (found := edge_without_carbon(plan, skin)) is not None:
            yield _at_step(Cannot.HARDEN_EDGE, found[0], found[1], skin.zone)


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
        slack_c = _RECKONED_OFF_C if advice.reckoned else 0.0
        if heat_c is not None and not advice.low.value - slack_c <= heat_c <= advice.high.value + slack_c:
            heats = Span(advice.low.value, advice.high.value, Kind.TEMPERATURE)
            limits = step.targets.get("temperature")
            at = celsius(heat_c) if limits is None else Span(limits.low, limits.high, Kind.TEMPERATURE)
            words = say("{} hardens from {}, not at {}.", metal.name, heats, at)
            yield _at_step(Cannot.HARDEN_FROM, step, words)


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
