"""Two things read of one heat treatment that cannot both be right: the later one is questioned."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from math import hypot, inf
from typing import Final

from coach.ledger.as_run import LONGEST_RUN_S, is_run_to_colour, judged_as_run
from coach.ledger.beside_magnet import let_go_before, not_turned, pulls_cold, pulls_still, still_pulls
from coach.ledger.course import Course, HeatMark, Mark, Outcome, ReadingMark
from coach.ledger.hot_work import steels_of
from coach.ledger.own_curves import (
    FILE_TEST,
    HARDNESS,
    TESTER_DOUBT_HRC,
    most_read_hrc,
    past_table_hrc,
    treatment_before,
)
from coach.ledger.plan import Plan
from coach.ledger.quenched import is_never_hard, past_any_quench, quenched_to_skate
from coach.ledger.reading import QUESTIONED_BEYOND
from coach.ledger.tempered import row_of
from coach.ledger.verdict import Verdict
from coach.operations import Does
from coach.operations.does import HeatKind
from coach.operations.shop_test import Result
from coach.quantities import NOTHING, Figure, Kind, Limits, Wanted, Words, as_words, celsius, say
from coach.recipe.model import Step

#: No file skates over steel softer than this, in HRC, and even tempered steel it bites freely (judgement).
_FILE_BITES_HRC: Final = 45.0
#: A soak so many times longer or shorter than it is wanted is a slip of the unit, which is one of sixty
#: (judgement).
_TIMES_OFF: Final = 20.0
#: Nobody tempers below the heat of boiling water, in °C (judgement).
_LEAST_TEMPER_C: Final = 100.0
#: Below this nothing glows by day, and in the dark nothing below 470 (J. W. Draper, 1847; from memory); what
#: does not glow by day is neither hardened nor normalised nor annealed; above this iron melts (the
#: iron-carbon diagram, from memory), in °C.
_GLOWS_C: Final = 525.0
_MELTS_C: Final = 1538.0
_NO_FILE: Final = "{} leaves its steel {} at most, and over that no file skates, as it did here"
_HARDER: Final = (
    "{} was measured before, and nothing but a quench makes it harder: that may have been on a soft skin, so "
    "try a spot ground clean"
)
_SOFTER: Final = (
    "{} was measured before, and no heat since is entered in this step that would draw it: try a spot ground "
    "clean"
)
_NOT_FROM_AIR: Final = (
    "it was quenched in air, which does not harden its steel, and a file bites that: try it again where it "
    "is to be hard, or measure the hardness"
)
_NOT_HARDER: Final = "from the quench it had {}, and no temper makes it harder"
_BITTEN_BEFORE: Final = (
    "from the quench a file bit it, and no temper makes it harder: that may have been a soft skin, so try a "
    "spot ground clean"
)
_MAGNET: Final = "magnet"
_SOAK: Final = "soak"
_TEMPERATURE: Final = "temperature"


def questioned_beside(
    plan: Plan, step: Step, outcomes: Sequence[Outcome], marks: Sequence[Mark]
) -> list[Outcome]:
    """The readings of a step in the order they were typed, what contradicts an earlier one questioned.

    The same reading twice stands, and so does one that was insisted on.
    """
    found: list[Outcome] = []
    for outcome in outcomes:
        against = NOTHING if outcome.mark.insisted else _against(plan, step, outcome, found, marks)
        again = any(
            one.against and one.mark.reading[:3] == outcome.mark.reading[:3]
            for one in found
            if one.questioned
        )
        doubted = outcome._replace(questioned=True, judged=None, against=against)
        found.append(doubted if against and not again else outcome)
    return found


def questioned_after_quench(course: Course, before: Iterable[Course]) -> Course:
    """A temper with what was read harder in it than the same zone was from its quench questioned."""
    quenched: dict[str, float] = {}
    bitten: dict[str, bool] = {}
    for one in before:
        if one.step.does(Does.QUENCHES):
            quenched = {zone: hrc for zone, hrc in quenched.items() if zone not in one.step.zones}
            bitten = {zone: was for zone, was in bitten.items() if zone not in one.step.zones}
        for read in one.outcomes:
            zone, dimension, size = read.mark.reading[:3]
            if one.step.does(Does.QUENCHES) and read.counts and dimension == HARDNESS:
                quenched[zone] = size
            elif dimension == FILE_TEST and not read.questioned:
                bitten[zone] = one.step.does(Does.QUENCHES) and Result.of(size) is Result.FAIL
    found: list[Outcome] = []
    for outcome in course.outcomes:
        zone, dimension, hrc = outcome.mark.reading[:3]
        against = NOTHING
        if dimension == FILE_TEST and course.step.does(Does.TEMPERS) and bitten.get(zone):
            against = as_words(_BITTEN_BEFORE) if _is_hard_by_file(outcome) else NOTHING
        elif dimension == HARDNESS:
            most = quenched.get(zone, inf) + QUESTIONED_BEYOND * hypot(TESTER_DOUBT_HRC, TESTER_DOUBT_HRC)
            against = say(_NOT_HARDER, _hrc(quenched[zone])) if hrc > most else NOTHING
        stands = outcome.mark.insisted or outcome.questioned or not against
        if stands or any(
            one.questioned and one.mark.reading[:3] == outcome.mark.reading[:3] for one in found
        ):
            found.append(outcome)
            continue
        found.append(outcome._replace(questioned=True, judged=None, against=against))
    return course._replace(outcomes=tuple(found))


def _against(
    plan: Plan, step: Step, outcome: Outcome, earlier: Sequence[Outcome], marks: Sequence[Mark]
) -> Words:
    """What speaks against a reading; nothing where it can be."""
    zone, dimension, size = outcome.mark.reading[:3]
    beside = {
        one.mark.reading.dimension: one
        for one in earlier
        if one.mark.reading.zone == zone and not (one.questioned or one.old)
    }
    if dimension in (FILE_TEST, HARDNESS) and (read := beside.get(_TEMPERATURE)):
        hard = size > _FILE_BITES_HRC if dimension == HARDNESS else _is_hard_by_file(outcome)
        if hard and step.does(Does.QUENCHES):
            told = not_turned(plan, step, read, beside.get(_MAGNET), outcome, marks)
            if told:
                return told
    if dimension == FILE_TEST and _is_hard_by_file(outcome) and is_never_hard(plan, step):
        return as_words(_NOT_FROM_AIR)
    bites_hrc = _bites_below_hrc(plan, step)
    if dimension == _MAGNET and Result.of(size) is Result.FAIL and (read := beside.get(_TEMPERATURE)):
        return still_pulls(read, outcome, marks)
    if dimension == _MAGNET and Result.of(size) is Result.PASS:
        read = beside.get(_TEMPERATURE)
        found = pulls_still(plan, step, read, outcome, marks) if read is not None else NOTHING
        return found or pulls_cold(plan, step, zone, marks)
    if dimension == HARDNESS and size < bites_hrc and _is_hard_by_file(beside.get(FILE_TEST)):
        return say("over steel of {} no file skates, and here it did", Figure(size, Kind.HARDNESS))
    if dimension == FILE_TEST and _is_hard_by_file(outcome) and (read := beside.get(HARDNESS)):
        read_hrc = read.mark.reading.size_mm
        if read_hrc < bites_hrc:
            return say("a file bites steel of {}, which was measured here", Figure(read_hrc, Kind.HARDNESS))
    if dimension == FILE_TEST and _is_hard_by_file(outcome) and (read := beside.get(_TEMPERATURE)):
        most_hrc = max(_most_hrc(plan, step, step, earlier, zone), default=inf)
        if step.does(Does.TEMPERS) and most_hrc < _FILE_BITES_HRC:
            return say(_NO_FILE, celsius(read.mark.reading.size_mm), Figure(most_hrc, Kind.HARDNESS))
    if dimension == _TEMPERATURE:
        tempered_since = beside.get(HARDNESS) if _TEMPERATURE not in beside else None  # else by another run
        skated = _is_hard_by_file(beside.get(FILE_TEST)) and _TEMPERATURE not in beside
        return (
            _out_of_reach(step, outcome)
            or let_go_before(plan, step, beside.get(_MAGNET), outcome, marks)
            or _left_softer(plan, step, outcome, tempered_since)
            or (_bitten(plan, step, outcome) if skated else NOTHING)
        )
    if dimension == _SOAK and outcome.limits is not None:
        heat = beside.get(_TEMPERATURE)
        is_run = heat is not None and judged_as_run(plan, step, heat, [outcome]) is not heat
        is_run = is_run or (size <= LONGEST_RUN_S and is_run_to_colour(step, zone, earlier))
        return NOTHING if is_run else _other_unit(size, outcome.limits)
    if dimension != HARDNESS:
        return NOTHING
    return (
        _too_hard(plan, step, outcome, earlier)
        or past_any_quench(plan, treatment_before(plan, step, zone) or step, size)
        or _unlike_before(beside.get(HARDNESS), outcome, marks)
    )


def _bites_below_hrc(plan: Plan, step: Step) -> float:
    """No file passes its test over steel softer than this in a step, in HRC."""
    if not step.does(Does.QUENCHES) or not quenched_to_skate(plan, step):
        return _FILE_BITES_HRC
    from coach.metals.own_curve import FILE_DOUBT_HRC, FILE_HRC

    return FILE_HRC - QUESTIONED_BEYOND * FILE_DOUBT_HRC


def _unlike_before(before: Outcome | None, outcome: Outcome, marks: Sequence[Mark]) -> Words:
    """A hardness far from what was read before it in the step, and nothing between that makes it so.

    No temper makes steel harder. It makes it softer, which is what is done to steel that was too hard.
    """
    if before is None:
        return NOTHING
    was_hrc = before.mark.reading.size_mm
    by_hrc = outcome.mark.reading.size_mm - was_hrc
    if abs(by_hrc) <= QUESTIONED_BEYOND * hypot(TESTER_DOUBT_HRC, TESTER_DOUBT_HRC):
        return NOTHING
    if by_hrc > 0.0:
        return (
            NOTHING if _treated_since(before, outcome, marks, hotter=False) else say(_HARDER, _hrc(was_hrc))
        )
    too_hard = before.limits is not None and was_hrc > before.limits.high
    if too_hard or _treated_since(before, outcome, marks, hotter=True):
        return NOTHING
    return say(_SOFTER, _hrc(was_hrc))


def _treated_since(before: Outcome, outcome: Outcome, marks: Sequence[Mark], *, hotter: bool) -> bool:
    """Whether it was in the fire between two readings or, where that may be it, tempered further."""
    between = marks[marks.index(before.mark) : marks.index(outcome.mark)]
    return any(
        isinstance(one, HeatMark)
        or (hotter and isinstance(one, ReadingMark) and one.reading.dimension in (_TEMPERATURE, _SOAK))
        for one in between
    )


def _hrc(value: float) -> Figure:
    return Figure(value, Kind.HARDNESS)


def _other_unit(soaked_s: float, limits: Limits) -> Words:
    """A soak so far from what is wanted that seconds were typed for minutes, or minutes for hours."""
    if limits.nominal / _TIMES_OFF < soaked_s < limits.nominal * _TIMES_OFF:
        return NOTHING
    return say("{} is wanted; a bare number counts minutes", Wanted(limits, Kind.TIME))


def _out_of_reach(step: Step, outcome: Outcome) -> Words:
    """A temperature that a step of its kind is never done at: a number that was meant for something else."""
    heat_c = outcome.mark.reading.size_mm
    tempers = step.does(Does.TEMPERS)
    least_c = _LEAST_TEMPER_C if tempers else _GLOWS_C
    if least_c <= heat_c <= _MELTS_C or not (tempers or step.heat_kind is HeatKind.TREATMENT):
        return NOTHING
    wanted = outcome.soaked or outcome.limits
    if wanted is not None:
        return say(
            "{} is wanted here; a bare number counts degrees Celsius", Wanted(wanted, Kind.TEMPERATURE)
        )
    return say(
        "{} to {} can be here; a bare number counts degrees Celsius", celsius(least_c), celsius(_MELTS_C)
    )


def _left_softer(plan: Plan, step: Step, heat: Outcome, measured: Outcome | None) -> Words:
    """A temper hotter than leaves the hardness that was measured; what was too hard is tempered further."""
    if measured is None or not step.does(Does.TEMPERS):
        return NOTHING
    judged, hrc = measured.judged, measured.mark.reading.size_mm
    if judged is not None and judged.verdict is not Verdict.GOOD and not judged.below:
        return NOTHING
    most_hrc = max(_most_hrc(plan, step, step, [heat], heat.mark.reading.zone), default=inf)
    if _is_as_told(hrc, most_hrc):
        return NOTHING
    told = "{} was measured, and so hot a temper leaves its steel {} at most"
    return say(told, Figure(hrc, Kind.HARDNESS), Figure(most_hrc, Kind.HARDNESS))


def _bitten(plan: Plan, step: Step, heat: Outcome) -> Words:
    """A temper hotter than leaves anything that the file could skate over, which it did."""
    if not step.does(Does.TEMPERS):
        return NOTHING
    most_hrc = max(_most_hrc(plan, step, step, [heat], heat.mark.reading.zone), default=inf)
    if most_hrc >= _FILE_BITES_HRC:
        return NOTHING
    return say(_NO_FILE, celsius(heat.mark.reading.size_mm), Figure(most_hrc, Kind.HARDNESS))


def _is_as_told(hrc: float, most_hrc: float) -> bool:
    return hrc <= most_hrc or round(hrc, 1) <= round(most_hrc)


def _is_hard_by_file(test: Outcome | None) -> bool:
    return test is not None and Result.of(test.mark.reading.size_mm) is Result.PASS


def _too_hard(plan: Plan, step: Step, outcome: Outcome, earlier: Sequence[Outcome]) -> Words:
    """Harder than the steel can be as it was quenched or tempered."""
    zone, _, hrc = outcome.mark.reading[:3]
    treated = treatment_before(plan, step, zone)
    if treated is None:
        return NOTHING
    rows = [row_of(plan, treated, metal) for metal in steels_of(plan, treated)]
    read = [(step, tuple(one for one in earlier if one.mark.reading.zone == zone))]
    most_hrc = max(_most_hrc(plan, treated, step, earlier, zone), default=inf)
    past = [row is not None and past_table_hrc(row, treated, read) is not None for row in rows]
    # So soft it is no hard steel at all, unless it was softened past all that the tables tell.
    if _is_as_told(hrc, most_hrc) or (hrc <= _FILE_BITES_HRC and not all(past)):
        return NOTHING
    if treated.does(Does.TEMPERS):
        return say(
            "as it was tempered its steel has {} at most: either this reading or the heat of the temper is "
            "not what it seems",
            Figure(most_hrc, Kind.HARDNESS),
        )
    return say("as it was quenched its steel has {} at most", Figure(most_hrc, Kind.HARDNESS))


def _most_hrc(plan: Plan, treated: Step, step: Step, earlier: Sequence[Outcome], zone: str) -> list[float]:
    """The most that each steel can have been read as, HRC; infinite where that is not published."""
    read = [(step, tuple(one for one in earlier if one.mark.reading.zone == zone))]
    found = []
    for metal in steels_of(plan, treated):
        row = row_of(plan, treated, metal)
        most_hrc = most_read_hrc(row, treated, metal, read) if row is not None else None
        if most_hrc is None:
            return [inf]
        found.append(most_hrc)
    return found
