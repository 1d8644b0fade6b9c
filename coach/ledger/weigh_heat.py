"""Weighs the heats of a recipe: too hot, too cold to hammer, and treatments out of their order."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from coach.fire.colours import COLOUR_DOUBT_C, HEAT_COLOURS
from coach.fire.limits import (
    BLUE_SHORT_C,
    READ_APART_C,
    burning_limit,
    burning_words,
    too_cold,
    worked_at,
)
from coach.ledger.hot_work import grades_in, steels_of
from coach.ledger.hottest_temper import hottest_temper, soaked_at
from coach.ledger.plan import Plan
from coach.ledger.tempered import row_of, temper_heat_c
from coach.metals.grade_file import Grade
from coach.operations import Does, names_of, operation
from coach.operations.does import HeatKind
from coach.quantities import NOTHING, Words, celsius, run_on, say
from coach.quantities.refusal import NotKnown, OutOfRange
from coach.recipe.model import Step
from coach.recipe.one_bar import next_to

#: Steel as quenched is as brittle as glass (from memory).
_SNAPS: Final = (
    "{} is hard from step {} and not tempered: cold it snaps and its pieces fly. Temper it first; eyes "
    "covered in any case."
)

#: Steel that is tempered to so much or more, in HRC, snaps rather than bends when it is cold (judgement).
_SNAPS_FROM_HRC: Final = 50.0

#: What "white" is differs by so much and more between tables, 1150 to 1400 °C (judgement): the word alone
#: settles no weld.
_WHITE_APART_C: Final = 150.0


def burnt(plan: Plan, step: Step) -> Words | None:
    """What burns in a step's heat, or must be feared to; None where nothing does."""
    if step.temperature_c is None or not step.heats:
        return None
    for metal in grades_in(plan, step._replace(heated=())):
        if words := burning_words(metal, step.temperature_c):
            return run_on((words, _welded_at(step, metal)))
        high = worked_at(metal)[1].temperature
        if high is None:
            continue
        if burning_limit(metal).temperature is None and step.temperature_c > high.value:
            most = "{} is above {}, the most that {} is forged at, and where it burns nobody can tell."
            return say(most, celsius(step.temperature_c), high, metal.name)
        if step.heat_kind is HeatKind.FORGING and step.temperature_c > high.value + READ_APART_C:
            most = "{} is no heat to {} {} at: it is forged at {} at most, and hotter its grain grows coarse."
            return say(most, celsius(step.temperature_c), step.operation, metal.name, high)
        if step.heat_kind is HeatKind.WELDING and (over := _over_its_weld(step, metal)) is not None:
            return over
    return None


def _welded_at(step: Step, metal: Grade) -> Words:
    """At what a grade is welded at most; nothing of a heat that is no weld, or where nobody says it."""
    high = worked_at(metal, welding=True)[1].temperature
    if step.heat_kind is not HeatKind.WELDING or high is None:
        return NOTHING
    return say("It is welded at {} at most.", high)


def _over_its_weld(step: Step, metal: Grade) -> Words | None:
    """A welding heat plainly above the highest that is published of a grade, though it does not burn yet.

    Of a colour alone so much more passes as the tables of it are apart.
    """
    high, heat_c = worked_at(metal, welding=True)[1].temperature, step.temperature_c
    if high is None or heat_c is None:
        return None
    if heat_c <= high.value + max(told_off_c(step), READ_APART_C):
        return None
    most = "{} is no heat to weld {} at: it is welded at {} at most, and hotter it soon sparks."
    return say(most, celsius(heat_c), metal.name, high)


def hot_for_its_weld(plan: Plan, step: Step) -> Words | None:
    """A weld that is hotter than a metal in it is welded at, though by no more than heats are read apart.

    None elsewhere. Of a colour alone it is asked about as far as the tables are apart: some begin that colour
    within what the metal stands, and the word does not say which is meant.
    """
    heat_c = step.temperature_c
    if step.heat_kind is not HeatKind.WELDING or heat_c is None or not step.heats or burnt(plan, step):
        return None
    off_c = told_off_c(step)
    for metal in grades_in(plan, step._replace(heated=())):
        high = worked_at(metal, welding=True)[1].temperature
        if high is None or heat_c <= high.value + (READ_APART_C if off_c else 0.0):
            continue
        if off_c:
            words = (
                "{} is read as {} here, tables of colours differ, and {} is welded at {} at most: hotter it "
                "soon sparks. Say the heat in its place, as in at {}."
            )
            return say(words, step.colour, celsius(heat_c), metal.name, high, high)
        words = "at {}, and {} is welded at {} at most: hotter it soon sparks. Is it meant?"
        return say(words, celsius(heat_c), metal.name, high)
    return None


def told_off_c(step: Step) -> float:
    """How far a heat may be off that a recipe tells by a colour alone, °C: as far as the tables are apart."""
    try:
        at_c = HEAT_COLOURS.temperature_c(step.colour) if step.colour else None
    except NotKnown:
        return 0.0
    return max(COLOUR_DOUBT_C, HEAT_COLOURS.apart_c(step.colour)) if at_c == step.temperature_c else 0.0


def struck_cold(plan: Plan, step: Step) -> Words | None:
    """What is to be struck, bent, cut or welded colder than it gives; None where nothing is.

    Whatever an operation is called: all that are done at a forging or a welding heat strike. Hard steel is
    straightened warm, at a tempering heat, and soft steel is bent cold, though not blue.
    """
    todo, heat_c = operation(step.operation), step.temperature_c
    if step.heat_kind is HeatKind.COLD:
        return _hammered_cold(plan, step)
    if heat_c is None or not step.heats or step.heat_kind is HeatKind.TREATMENT:
        return None
    if step.heat_kind is HeatKind.WELDING and (words := _not_welded(plan, step, heat_c)):
        return words
    hard = _is_hard(plan, step)
    for metal in grades_in(plan, step._replace(heated=())):
        cold, back = too_cold(metal), worked_at(metal)[0].temperature
        if cold.stop_below is None or heat_c >= cold.stop_below.value:
            if (
                back is not None
                and heat_c < back.value
                and step.heat_kind is HeatKind.FORGING
                and not todo.LIGHT
            ):
                at_once = "{} is no heat to {} {} at: below {} it goes back to the fire."
                return say(at_once, celsius(heat_c), step.operation, metal.name, back)
            continue
        blue_c, over_c = BLUE_SHORT_C
        if todo.LIGHT and (hard or (cold.gives_cold and not blue_c <= heat_c <= over_c)):
            continue
        also = (
            say(", and blue, {} to {}, it can crack", *map(celsius, BLUE_SHORT_C))
            if cold.gives_cold
            else NOTHING
        )
        no_heat = "{} is no heat to {} {} at: below {} {}{}."
        return say(
            no_heat, celsius(heat_c), step.operation, metal.name, cold.stop_below, cold.otherwise, also
        )
    return None


def _hammered_cold(plan: Plan, step: Step) -> Words | None:
    """Steel or iron whose section is hammered without any heat; light bends and rivet heads are set cold."""
    todo = operation(step.operation)
    heavy = todo.RESHAPES and not todo.FIXES and not todo.LIGHT and not step.does(Does.FASTENS)
    if not heavy or todo.HEAT_KIND is HeatKind.COLD:
        return None
    for metal in grades_in(plan, step._replace(heated=())):
        cold = too_cold(metal)
        if cold.stop_below is not None and not cold.gives_cold:
            words = "no heat is said, and to {} {} cold it must take one: below {} {}."
            return say(words, step.operation, metal.name, cold.stop_below, cold.otherwise)
    return None


def _not_welded(plan: Plan, step: Step, heat_c: float) -> Words | None:
    """A heat at which not even the metal that takes the coldest takes."""
    lows = [worked_at(metal, welding=True)[0].temperature for metal in grades_in(plan, step)]
    known = [low for low in lows if low is not None]
    if len(known) < len(lows) or not known:
        return None
    low = min(known, key=lambda one: one.value)
    if heat_c >= low.value - (_WHITE_APART_C if step.colour else 0.0):
        return None
    return say("{} is no welding heat: nothing in it takes below {}.", celsius(heat_c), low)


#: What a bend is asked for that is more than setting straight.
_SHAPED_BY = frozenset({"angle", "radius"})


def _is_hard(plan: Plan, step: Step) -> bool:
    """Whether a step's zones were quenched before it."""
    before = plan.recipe.steps[: step.number - 1]
    return all(any(one.does(Does.QUENCHES) and zone in one.zones for one in before) for zone in step.zones)


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
        elif step.heats and step.heat_kind is not HeatKind.COLD and not _is_warm_only(plan, step):
            for zone in hot:
                if zone in hard and quenched_later.get(zone, 0) < step.number:
                    first = hard.pop(zone)
                    words = "its fire undoes what step {}, {}, made of {}: do it before, or harden it again."
                    yield step, zone, say(words, first.number, first.title, zone)
        elif operation(step.operation).LIGHT:
            for zone in step.zones:
                if zone in hard and zone not in tempered:
                    yield step, zone, say(_SNAPS, zone, hard[zone].number)
                elif zone in hard and _SHAPED_BY & step.targets.keys() and snaps_cold(plan, step):
                    words = "{} is hard since step {}, and snaps where it is bent cold: bend it before that."
                    yield step, zone, say(words, zone, hard[zone].number)


#: Heat that creeps along the bar draws what is hard beside it (common practice, no source).
_CREEPS: Final = (
    "its heat creeps into {}, which is hard since step {}, {}, and draws it: keep {} wet or between cold "
    "jaws meanwhile, or do this before that. Is it meant so?"
)


def drawn_by_neighbours(plan: Plan) -> Iterator[tuple[Step, str, Words]]:
    """Forging and treatment heats beside what was hardened and is not hardened again, each once.

    Each with its step and the zone that is hot.
    """
    hard: dict[str, Step] = {}
    quenched_later = _last_quenches(plan)
    for step in plan.recipe.steps:
        hot = dict.fromkeys((*step.zones, *step.heated))
        if step.does(Does.QUENCHES):
            hard |= dict.fromkeys(hot, step)
        elif step.heats and step.heat_kind is not HeatKind.COLD and not step.does(Does.TEMPERS):
            if _is_warm_only(plan, step) or step.again:
                continue
            for zone in hot:
                along = next_to(plan.recipe.piece_of(zone).finished_zones, zone)
                beside = [one for one in along if one in hard and one not in hot]
                for one in beside:
                    if quenched_later.get(one, 0) < step.number:
                        first = hard.pop(one)
                        yield step, zone, say(_CREEPS, one, first.number, first.title, one)
                hard.pop(zone, None)


def untempered(plan: Plan, step: Step) -> bool:
    """Whether a step handles a zone that is quenched and not tempered: a blow or a bend breaks it."""
    if step.does(Does.QUENCHES) or step.does(Does.TEMPERS):
        return False
    for zone in step.zones:
        last = _last_treated(plan, step, zone)
        if last is not None and last.does(Does.QUENCHES):
            return True
    return False


def comes_oily(plan: Plan, step: Step) -> bool:
    """Whether a temper takes a zone to its heat straight from a bath of oil."""
    if not step.does(Does.TEMPERS):
        return False
    treated = (_last_treated(plan, step, zone) for zone in step.zones)
    return any(one is not None and one.does(Does.QUENCHES) and "oil" in one.quench.split() for one in treated)


def snaps_cold(plan: Plan, step: Step) -> bool:
    """Whether a step bends cold what is tempered and still hard; what nobody can tell is."""
    if not operation(step.operation).LIGHT or (step.heats and step.heat_kind is not HeatKind.COLD):
        return False
    for zone in step.zones:
        last = _last_treated(plan, step, zone)
        if last is not None and last.does(Does.TEMPERS) and _left_hard(plan, last):
            return True
    return False


def _last_treated(plan: Plan, step: Step, zone: str) -> Step | None:
    """The last quench or temper of a zone before a step."""
    treats = {*names_of(Does.QUENCHES), *names_of(Does.TEMPERS)}
    before = reversed(plan.recipe.steps[: step.number - 1])
    return next((one for one in before if one.operation in treats and zone in one.zones), None)


def _left_hard(plan: Plan, temper: Step) -> bool:
    """Whether a temper leaves, or may leave, a hardness that snaps."""
    from coach.metals.tempering import tempered_hrc

    asked = temper.targets.get("hardness")
    if asked is not None:
        return asked.nominal >= _SNAPS_FROM_HRC
    for metal in steels_of(plan, temper):
        row = row_of(plan, temper, metal)
        soaked = soaked_at(hottest_temper(plan, temper, row), ()) if row is not None else None
        if row is None or soaked is None:
            return True
        heat_c, _, hours = soaked
        try:
            left = tempered_hrc(row, heat_c, hours)
        except OutOfRange:
            return True
        if left.hrc >= _SNAPS_FROM_HRC:
            return True
    return False


def _is_warm_only(plan: Plan, step: Step) -> bool:
    """Whether what is tempered is warmed, and lightly bent, no hotter than it was tempered at."""
    if step.temperature_c is None or not operation(step.operation).LIGHT:
        return False
    before = reversed(plan.recipe.steps[: step.number - 1])
    temper = next((one for one in before if one.does(Does.TEMPERS) and {*step.zones} <= {*one.zones}), None)
    heat_c = temper_heat_c(temper) if temper is not None else None
    return heat_c is not None and step.temperature_c <= heat_c


def _last_quenches(plan: Plan) -> dict[str, int]:
    """The last step that quenches each zone."""
    return {
        zone: step.number
        for step in plan.recipe.steps
        if step.does(Does.QUENCHES)
        for zone in (*step.zones, *step.heated)
    }
