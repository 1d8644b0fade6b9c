"""Weighs how a recipe treats its steel: the bath, the heats, the soaks, and tests before the temper."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from coach.fire.colours import COLOUR_DOUBT_C, HEAT_COLOURS
from coach.ledger.hot_work import steels_of
from coach.ledger.plan import Plan
from coach.ledger.tempered import temper_heat_c, thickness_mm
from coach.ledger.weigh_heat import untempered
from coach.metals.grade_file import Grade
from coach.metals.tempering import LOWEST_C, RUN_HOURS
from coach.metals.transformation import is_beyond_alloys, lower_critical, upper_critical
from coach.operations import Does
from coach.operations.does import HeatKind
from coach.operations.shop_tests import SHOP_TESTS
from coach.quantities import Words, celsius, mm, say, seconds
from coach.quantities.refusal import NotKnown
from coach.recipe.model import Step

#: So far above its highest normalising heat steel comes out coarser than it went in, in °C (judgement).
_COARSE_ABOVE_C: Final = 100.0
#: A hardening soak of an hour, and of one more for each inch, is long for any tool steel (from memory).
_SOAK_S, _SOAK_PER_MM_S = 3600.0, 3600.0 / 25.4
#: A run of colours lasts no longer than this, in hours (judgement).
_LONGEST_RUN_HOURS: Final = 2.0 * RUN_HOURS
_WATERS: Final = ("water", "brine")
#: The baths for which a steel is too deep hardening to be quenched in water (common practice, no source).
_MILD_BATHS: Final = ("oil", "salt", "air")


def wrongly_treated(plan: Plan, step: Step) -> Iterator[Words]:
    """What to say of each thing in a step's treatment that cannot do what it is for."""
    if step.does(Does.QUENCHES):
        for metal in steels_of(plan, step):
            yield from _wrong_bath(step, metal)
        yield from _soaked_too_long(plan, step)
    elif step.heat_kind is HeatKind.TREATMENT:
        for metal in steels_of(plan, step):
            yield from _wrong_heat(step, metal)
    elif step.does(Does.TEMPERS):
        yield from _wrong_temper(plan, step)
    if untempered(plan, step):
        yield from _tried_too_early(step)


def _wrong_bath(step: Step, metal: Grade) -> Iterator[Words]:
    if not step.quench or metal.quench is None or step.quench == metal.quench.medium:
        return
    own = metal.quench.medium
    if step.quench == "air":
        yield say("{} is quenched in {}; air does not harden it through.", metal.name, own)
    elif step.quench in _WATERS and own in _MILD_BATHS:
        yield say("{} is quenched in {}, and cracks in {}.", metal.name, own, step.quench)


def _soaked_too_long(plan: Plan, step: Step) -> Iterator[Words]:
    soak = step.targets.get("soak")
    thick_mm = thickness_mm(plan, step) or 0.0
    longest_s = _SOAK_S + _SOAK_PER_MM_S * thick_mm
    if soak is not None and soak.nominal > longest_s:
        words = (
            "{} at a hardening heat coarsens the grain and takes the carbon: {} thick, minutes are enough."
        )
        yield say(words, seconds(soak.nominal), mm(thick_mm))


def _wrong_heat(step: Step, metal: Grade) -> Iterator[Words]:
    """Of normalising and annealing. Sources: `coach.metals.transformation`, and the grade's file."""
    heat_c, high_c = step.temperature_c, metal.normalising_high_c
    if heat_c is None:
        return
    off_c = _told_off_c(step)
    if high_c is not None and heat_c - off_c > high_c + _COARSE_ABOVE_C:
        words = "{} leaves {} coarser than it was: it is normalised at {} at most."
        yield say(words, celsius(heat_c), metal.name, celsius(high_c))
    if not step.does(Does.NORMALISES) or not _turns(metal):
        return
    turns, turned = lower_critical(metal.nominal), upper_critical(metal.nominal)
    if heat_c + off_c < turns.celsius:
        words = "{} normalises nothing: {} does not begin to turn below about {}."
        yield say(words, celsius(heat_c), metal.name, celsius(turns.celsius))
    elif heat_c + off_c < turned.celsius:
        words = "{} normalises only part of it: {} is not all turned below about {}."
        yield say(words, celsius(heat_c), metal.name, celsius(turned.celsius))


def _told_off_c(step: Step) -> float:
    """How far a heat may be off that a recipe tells by a colour alone, °C: as far as the tables are apart."""
    try:
        at_c = HEAT_COLOURS.temperature_c(step.colour) if step.colour else None
    except NotKnown:
        return 0.0
    return max(COLOUR_DOUBT_C, HEAT_COLOURS.apart_c(step.colour)) if at_c == step.temperature_c else 0.0


def _turns(metal: Grade) -> bool:
    """Whether it is known where a steel turns."""
    return bool(metal.composition) and not is_beyond_alloys(metal.nominal)


def _wrong_temper(plan: Plan, step: Step) -> Iterator[Words]:
    heat_c, soak = temper_heat_c(step), step.targets.get("soak")
    if heat_c is None:
        return
    if step.colour and soak is not None and soak.nominal / 3600.0 > _LONGEST_RUN_HOURS:
        words = (
            "{} is the colour of a run of minutes, and after {} it tells nothing: say the soak's own heat."
        )
        yield say(words, step.colour, seconds(soak.nominal))
    if heat_c < LOWEST_C:
        yield say(
            "{} tempers nothing: below {} hardened steel stays as it is.", celsius(heat_c), celsius(LOWEST_C)
        )
    for metal in steels_of(plan, step):
        if _turns(metal) and heat_c >= lower_critical(metal.nominal).celsius:
            words = "{} is no temper: {} turns from about {}, and is hard no more."
            yield say(words, celsius(heat_c), metal.name, celsius(lower_critical(metal.nominal).celsius))


def _tried_too_early(step: Step) -> Iterator[Words]:
    """Tests that a temper is tried by break what is not tempered yet."""
    for check in step.checks:
        zone, _, name = check.rpartition(".")
        if name in SHOP_TESTS and Does.TEMPERS in SHOP_TESTS[name].mended_by:
            yield say(
                "{} is not tempered yet, and a {} breaks it: make it after the temper.",
                zone,
                name.replace("_", " "),
            )
