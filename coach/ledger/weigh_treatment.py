"""Weighs how a recipe treats its steel: the bath, the heats, the soaks, and tests before the temper."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from coach.fire.colours import HEAT_COLOURS
from coach.fire.temper_colours import TEMPER_COLOURS, TEMPER_DOUBT_C
from coach.forms import listed
from coach.ledger.hot_work import steels_of
from coach.ledger.hottest_temper import left_by
from coach.ledger.plan import Plan
from coach.ledger.tempered import own_bath, row_of, temper_heat_c, thickness_mm
from coach.ledger.unsaid_heat import says_its_heat
from coach.ledger.weigh_card import SOAK_PER_MM_S, unlike_its_card
from coach.ledger.weigh_heat import told_off_c, untempered
from coach.metals.baths import WATERS, bears, cracks_in, is_fiercer
from coach.metals.grade_file import Grade
from coach.metals.hardening import LEAST_CARBON_SHARE, SLOW_SOAK_S, dissolves_slowly, normalise_words
from coach.metals.tempering import (
    HIGHEST_C,
    LONGEST_HOURS,
    LOWEST_C,
    RUN_HOURS,
    SHORTEST_HOURS,
    TABLE_HOURS,
)
from coach.metals.tempering_table import hardened_through_mm, like_a_bar_from_mm
from coach.metals.transformation import is_beyond_alloys, lower_critical, upper_critical
from coach.operations import Does, operation
from coach.operations.does import HeatKind
from coach.operations.shop_tests import SHOP_TESTS
from coach.quantities import NOTHING, Kind, Span, Words, as_words, celsius, mm, run_on, say, seconds
from coach.recipe.model import Step

#: So far above its highest normalising heat steel comes out coarser than it went in, in °C (judgement).
_COARSE_ABOVE_C: Final = 100.0
#: A normalising heat may be so far below its steel's own, in °C: heats are read no closer (judgement).
_COLDER_BY_C: Final = 40.0
#: A hardening soak of an hour, and of one more for each inch, is long for any tool steel (from memory).
_SOAK_S: Final = 3600.0
#: A run of colours lasts no longer than this, in hours (judgement).
_LONGEST_RUN_HOURS: Final = 2.0 * RUN_HOURS
#: What a temper is reckoned for (`coach.metals.tempering`).
_SOAKS_HOURS: Final = (SHORTEST_HOURS, LONGEST_HOURS)


def wrongly_treated(plan: Plan, step: Step) -> Iterator[Words]:
    """What to say of each thing in a step's treatment that cannot do what it is for."""
    if step.does(Does.QUENCHES):
        yield from in_air(plan, step)
        for metal in steels_of(plan, step):
            yield from _wrong_bath(plan, step, metal)
            yield from _soaked_too_short(step, metal)
        yield from _soaked_too_long(plan, step)
        yield from _tried_too_early(step)
    elif step.heat_kind is HeatKind.TREATMENT:
        for metal in steels_of(plan, step):
            yield from _wrong_heat(plan, step, metal)
    elif step.does(Does.TEMPERS):
        yield from _wrong_temper(plan, step)
    if untempered(plan, step):
        yield from _tried_too_early(step)
        yield from _ground_too_early(step)


def _wrong_bath(plan: Plan, step: Step, metal: Grade) -> Iterator[Words]:
    if metal.quench is None and step.quench in WATERS and _may_harden(metal):
        words = (
            "what {} is quenched in is not known, and {} cracks many a steel: a coupon in oil comes first."
        )
        yield say(words, metal.name, step.quench)
    if not step.quench or metal.quench is None or step.quench == metal.quench.medium:
        return
    own = metal.quench.medium
    if step.quench == "air":
        return  # `in_air` tells of it
    if cracks_in(step.quench, metal) and not bears(step.quench, metal, thickness_mm(plan, step)):
        yield say("{} is quenched in {}, and can crack in {}.", metal.name, own, step.quench)
    elif _is_thin(thickness_mm(plan, step), metal):
        yield from _cracks_thin(plan, step, metal)


def in_air(plan: Plan, step: Step) -> Iterator[Words]:
    """What to say of each steel that a step quenches in air and that air does not harden through."""
    for metal in steels_of(plan, step) if step.does(Does.QUENCHES) and step.quench == "air" else ():
        if metal.quench is not None and metal.quench.medium != "air":
            words = "{} is quenched in {}; in air even a thin piece is hard in part alone."
            yield say(words if dissolves_slowly(metal) else _NOT_IN_AIR, metal.name, metal.quench.medium)


_NOT_IN_AIR: Final = "{} is quenched in {}; air does not harden it through."


def _is_thin(thick_mm: float | None, metal: Grade) -> bool:
    """Whether it is so thin that slow oil hardens it right through, so that no fiercer bath is wanted."""
    surely_mm = hardened_through_mm(metal.name, "oil")
    return thick_mm is not None and surely_mm is not None and thick_mm <= surely_mm


def _cracks_thin(plan: Plan, step: Step, metal: Grade) -> Iterator[Words]:
    thick_mm = thickness_mm(plan, step)
    if metal.quench is None or thick_mm is None or not cracks_in(step.quench, metal, thick_mm):
        return
    own = metal.quench.medium
    words = "{} is quenched in {}, and {} thick it can crack in {}: {} hardens it through up to {}."
    through_mm = hardened_through_mm(metal.name, own) or 0.0
    yield say(words, metal.name, own, mm(thick_mm), step.quench, own, mm(through_mm))


def _soaked_too_long(plan: Plan, step: Step) -> Iterator[Words]:
    soak = step.targets.get("soak")
    thick_mm = thickness_mm(plan, step) or 0.0
    longest_s = _SOAK_S + SOAK_PER_MM_S * thick_mm
    if soak is not None and soak.nominal > longest_s:
        words = (
            "{} at a hardening heat coarsens the grain and takes the carbon: {} thick, minutes are enough."
        )
        yield say(words, seconds(soak.nominal), mm(thick_mm))


def _may_harden(metal: Grade) -> bool:
    return metal.carbon_share is None or metal.carbon_share >= LEAST_CARBON_SHARE


def _soaked_too_short(step: Step, metal: Grade) -> Iterator[Words]:
    soak = step.targets.get("soak")
    if soak is not None and soak.high < SLOW_SOAK_S[0] and dissolves_slowly(metal):
        words = "{} at its hardening heat is too short for {}: its carbides dissolve slowly, hold it {}."
        yield say(words, seconds(soak.nominal), metal.name, Span(*SLOW_SOAK_S, Kind.TIME))


def _wrong_heat(plan: Plan, step: Step, metal: Grade) -> Iterator[Words]:
    """Of normalising and annealing. Sources: `coach.metals.transformation`, and the grade's file."""
    heat_c, high_c = step.temperature_c, metal.normalising_high_c
    if heat_c is None:
        return
    off_c = told_off_c(step)
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
    elif _below_its_own(step, metal) and not normalised_higher(plan, step, metal):
        low_c, high_c = metal.normalising_low_c or 0.0, metal.normalising_high_c or 0.0
        words = "{} is too little to normalise {}: it is normalised at {}."
        yield say(words, celsius(heat_c), metal.name, Span(low_c, high_c, Kind.TEMPERATURE))


def _below_its_own(step: Step, metal: Grade) -> bool:
    """Whether a step is plainly colder than what a steel is normalised at by its file."""
    low_c, high_c, heat_c = metal.normalising_low_c, metal.normalising_high_c, step.temperature_c
    if low_c is None or high_c is None or heat_c is None:
        return False
    return heat_c + max(told_off_c(step), _COLDER_BY_C) < low_c


def normalised_higher(plan: Plan, step: Step, metal: Grade) -> bool:
    """Whether it was normalised at its own heat before: a last, cooler cycle refines the grain."""
    before = plan.recipe.steps[: step.number - 1]
    zones = set(step.zones)
    return any(
        one.does(Does.NORMALISES) and zones <= set(one.zones) and not _below_its_own(one, metal)
        for one in before
    )


def _turns(metal: Grade) -> bool:
    """Whether it is known where a steel turns."""
    return bool(metal.composition) and not is_beyond_alloys(metal.nominal)


def _wrong_temper(plan: Plan, step: Step) -> Iterator[Words]:
    heat_c, soak = temper_heat_c(step), step.targets.get("soak")
    if soak is not None and not SHORTEST_HOURS <= soak.nominal / 3600.0 <= LONGEST_HOURS:
        words = (
            "a soak of {} is no temper: one from {} to {} was expected. Give the time at heat within that."
        )
        yield say(words, seconds(soak.nominal), *(seconds(3600.0 * one) for one in _SOAKS_HOURS))
    if step.colour and step.temperature_c is None and (glows := _glows_at(step.colour)) is not None:
        words = "{} is a glow of {} or so: a temper is far below that, and told by its oxide colour or in °C."
        yield say(words, step.colour, celsius(glows))
        return
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


def _glows_at(colour: str) -> float | None:
    """The least heat that a colour of glowing metal tells of; None for one that an oxide film has too."""
    if any(called for called in TEMPER_COLOURS.those_called(colour)):
        return None
    found = [one.temperature_c for _, one in HEAT_COLOURS.those_called(colour)]
    return min(found) if found else None


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


def _ground_too_early(step: Step) -> Iterator[Words]:
    """The wheel's heat cracks what is glass-hard, and left so it cracks by itself (common practice)."""
    if _is_grinding(step):
        words = (
            "{} is quenched and not tempered yet: temper it at once, and {} it after. Glass-hard "
            "steel cracks under a wheel, and often by itself where it lies."
        )
        yield say(words, listed(step.zones), step.operation)


def _is_grinding(step: Step) -> bool:
    return operation(step.operation).FIXES or step.does(Does.WORKS_AN_EDGE)


def is_ground_hard(plan: Plan, step: Step) -> bool:
    """Whether a step grinds what is quenched and not tempered yet."""
    return _is_grinding(step) and untempered(plan, step)


def unusual_treatment(plan: Plan, step: Step) -> Iterator[Words]:
    """What is not done to a steel as a rule, and may be meant: to be asked about."""
    for metal in steels_of(plan, step):
        if step.does(Does.NORMALISES) and metal.normalising_low_c is None and _is_known(metal):
            yield run_on((normalise_words(metal), as_words("Is it meant so?")))
        if step.does(Does.QUENCHES) and not step.quench and metal.quench is not None:
            words = "what it is quenched in is not said, and for {} that is {}: write quench {}."
            yield say(words, metal.name, metal.quench.medium, metal.quench.medium)
        yield from _unsaid(step, metal)
        if step.does(Does.QUENCHES):
            yield from _unusual_bath(plan, step, metal)
        yield from unlike_its_card(plan, step, metal)
        yield from _hot_temper(plan, step, metal)
        low_c, high_c, heat_c = metal.tempering_low_c, metal.tempering_high_c, temper_heat_c(step)
        if not step.does(Does.TEMPERS) or low_c is None or high_c is None or heat_c is None:
            continue
        if LOWEST_C <= heat_c < low_c - TEMPER_DOUBT_C:
            words = "{} is a cool temper for {}, which is tempered at {}: is it meant so?"
            yield say(words, celsius(heat_c), metal.name, Span(low_c, high_c, Kind.TEMPERATURE))


def _unsaid(step: Step, metal: Grade) -> Iterator[Words]:
    """A quench or a temper of which nobody can say whether it is right, as it says no heat."""
    if says_its_heat(step):
        return
    if step.does(Does.QUENCHES) and metal.hardening_low_c is not None and metal.hardening_high_c is not None:
        words = "at what heat it is quenched is not said, and {} is hardened at {}: write that after at."
        own = Span(metal.hardening_low_c, metal.hardening_high_c, Kind.TEMPERATURE)
        yield say(words, metal.name, own)
    if not step.does(Does.TEMPERS) or "hardness" in step.targets:
        return
    if metal.tempering_low_c is not None and metal.tempering_high_c is not None:
        words = (
            "neither its heat nor what hardness is wanted is said, and {} is tempered at {}: write the heat "
            "after at, or the hardness."
        )
        yield say(words, metal.name, Span(metal.tempering_low_c, metal.tempering_high_c, Kind.TEMPERATURE))


def _unusual_bath(plan: Plan, step: Step, metal: Grade) -> Iterator[Words]:
    """A fiercer bath for what is rather thin, and a milder one for what is too thick for it.

    Where a hardness is asked for that is judged by itself.
    """
    own = metal.quench.medium if metal.quench is not None else ""
    if not own or not step.quench or step.quench == "air":
        return
    thick_mm = thickness_mm(plan, step)
    if step.quench == own:
        yield from _too_thick_for_its_own(plan, step, metal)
        return
    if bears(step.quench, metal, thick_mm) and thick_mm is not None:
        words = "{} is quenched in {}; so big, {}, it bears {} where it is plain, without a corner: is it so?"
        yield say(words, metal.name, own, mm(thick_mm), step.quench)
        return
    if not cracks_in(step.quench, metal) and not _is_thin(thick_mm, metal):
        for told in _cracks_thin(plan, step, metal):
            yield run_on((told, as_words("Is it meant so?")))
    soft_mm = like_a_bar_from_mm(metal.name, step.quench)
    through_mm = hardened_through_mm(metal.name, step.quench)
    if thick_mm is None or soft_mm is None or not is_fiercer(own, step.quench):
        return
    if _hardness_asked(plan, step):
        return
    if thick_mm >= soft_mm:
        words = (
            "{} is quenched in {}; {} thick, {} leaves it soft, as it does from about {} on: is it meant so?"
        )
        yield say(words, metal.name, own, mm(thick_mm), step.quench, mm(soft_mm))
    elif through_mm is not None and thick_mm > through_mm and (own, step.quench) == ("fast oil", "oil"):
        words = "{} is quenched in {}; {} thick, {} may leave it soft, as from about {} on: is it meant so?"
        yield say(words, metal.name, own, mm(thick_mm), step.quench, mm(through_mm))


def _too_thick_for_its_own(plan: Plan, step: Step, metal: Grade) -> Iterator[Words]:
    """A piece so thick that its steel's own bath leaves it soft, where a fiercer one is told of."""
    thick_mm, other = thickness_mm(plan, step), own_bath(plan, step)
    soft_mm = like_a_bar_from_mm(metal.name, step.quench)
    if not other or thick_mm is None or soft_mm is None or thick_mm < soft_mm or _hardness_asked(plan, step):
        return
    words = "{} thick, {} leaves {} soft, as from about {} on, and thick pieces take {}: is it meant so?"
    yield say(words, mm(thick_mm), step.quench, metal.name, mm(soft_mm), other)


def _hardness_asked(plan: Plan, step: Step) -> bool:
    """Whether a temper of what is quenched says what hardness is wanted."""
    return any(
        one.does(Does.TEMPERS) and {*one.zones} & {*step.zones} and "hardness" in one.targets
        for one in plan.recipe.steps[step.number :]
    )


def _hot_temper(plan: Plan, step: Step, metal: Grade) -> Iterator[Words]:
    """A temper far above a steel's own that leaves no edge, where it is not said what hardness is wanted."""
    high_c, heat_c, row = metal.tempering_high_c, temper_heat_c(step), row_of(plan, step, metal)
    if not step.does(Does.TEMPERS) or step.again or "hardness" in step.targets:
        return
    if high_c is None or metal.tempering_low_c is None or heat_c is None or row is None:
        return
    if heat_c <= high_c + TEMPER_DOUBT_C:
        return
    if _turns(metal) and heat_c >= lower_critical(metal.nominal).celsius:
        return
    soak = step.targets.get("soak")
    hours = soak.nominal / 3600.0 if soak is not None else TABLE_HOURS
    left = left_by(row, heat_c, hours) if heat_c < HIGHEST_C else None  # no table goes farther
    leaves = say(" and leaves it at about {}", left.words) if left is not None else NOTHING
    words = (
        "{} is a hot temper for {}, which is tempered at {}{}: is it meant so? Say what hardness is wanted."
    )
    own = Span(metal.tempering_low_c, high_c, Kind.TEMPERATURE)
    yield say(words, celsius(heat_c), metal.name, own, leaves)


def _is_known(metal: Grade) -> bool:
    """Whether it is known what is in it."""
    return bool(metal.composition)
