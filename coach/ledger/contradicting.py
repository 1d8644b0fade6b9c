"""Two things read of one heat treatment that cannot both be right: the later one is questioned."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from math import hypot, inf
from typing import Final

from coach.ledger.course import Course, HeatMark, Mark, Outcome
from coach.ledger.hot_work import steels_of
from coach.ledger.own_curves import FILE_TEST, HARDNESS, TESTER_DOUBT_HRC, expected_hrc, treatment_before
from coach.ledger.plan import Plan
from coach.ledger.reading import QUESTIONED_BEYOND
from coach.ledger.tempered import row_of
from coach.operations import Does
from coach.operations.measures import MEASURED
from coach.operations.shop_test import Result
from coach.quantities import NOTHING, Figure, Kind, Words, celsius, say
from coach.recipe.model import Step

#: No file skates over steel softer than this, in HRC, and even tempered steel it bites freely (judgement).
_FILE_BITES_HRC: Final = 45.0
_MAGNET: Final = "magnet"


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
    for one in before:
        if one.step.does(Does.QUENCHES):
            quenched = {zone: hrc for zone, hrc in quenched.items() if zone not in one.step.zones}
            for read in one.outcomes:
                if read.counts and read.mark.reading.dimension == HARDNESS:
                    quenched[read.mark.reading.zone] = read.mark.reading.size_mm
    found: list[Outcome] = []
    for outcome in course.outcomes:
        zone, dimension, hrc = outcome.mark.reading[:3]
        most = quenched.get(zone, inf) + QUESTIONED_BEYOND * hypot(TESTER_DOUBT_HRC, TESTER_DOUBT_HRC)
        stands = outcome.mark.insisted or outcome.questioned or dimension != HARDNESS or hrc <= most
        if stands or any(
            one.questioned and one.mark.reading[:3] == outcome.mark.reading[:3] for one in found
        ):
            found.append(outcome)
            continue
        against = say(
            "from the quench it had {}, and no temper makes it harder", Figure(quenched[zone], Kind.HARDNESS)
        )
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
        if one.mark.reading.zone == zone and not one.questioned
    }
    if dimension == _MAGNET and Result.of(size) is Result.FAIL and (read := beside.get("temperature")):
        return _still_pulls(read, outcome, marks)
    if dimension == HARDNESS and size < _FILE_BITES_HRC and _is_hard_by_file(beside.get(FILE_TEST)):
        return say("over steel of {} no file skates, and here it did", Figure(size, Kind.HARDNESS))
    if dimension == FILE_TEST and _is_hard_by_file(outcome) and (read := beside.get(HARDNESS)):
        read_hrc = read.mark.reading.size_mm
        if read_hrc < _FILE_BITES_HRC:
            return say("a file bites steel of {}, which was measured here", Figure(read_hrc, Kind.HARDNESS))
    return _too_hard(plan, step, outcome, earlier) if dimension == HARDNESS else NOTHING


def _is_hard_by_file(test: Outcome | None) -> bool:
    return test is not None and Result.of(test.mark.reading.size_mm) is Result.PASS


def _still_pulls(read: Outcome, magnet: Outcome, marks: Sequence[Mark]) -> Words:
    """No iron pulls above its Curie point; of another heat the temperature says nothing."""
    from coach.metals.hardening import CURIE_C

    between = marks[marks.index(read.mark) : marks.index(magnet.mark)]
    heat = read.mark.reading
    doubt_c = heat.hot_doubt_c or MEASURED[Kind.TEMPERATURE].doubt or 0.0
    if any(isinstance(one, HeatMark) for one in between):
        return NOTHING
    if heat.size_mm - QUESTIONED_BEYOND * doubt_c <= CURIE_C:
        return NOTHING
    told = "at the {} read before no steel pulls a magnet, all let go at {} at the latest"
    return say(told, celsius(heat.size_mm), celsius(CURIE_C))


def _too_hard(plan: Plan, step: Step, outcome: Outcome, earlier: Sequence[Outcome]) -> Words:
    """Harder than the steel can be as it was quenched or tempered."""
    zone, _, hrc = outcome.mark.reading[:3]
    treated = treatment_before(plan, step, zone)
    if treated is None or hrc <= _FILE_BITES_HRC:
        return NOTHING
    most_hrc = max(_most_hrc(plan, treated, step, earlier, zone), default=inf)
    if hrc <= most_hrc:
        return NOTHING
    how = "tempered" if treated.does(Does.TEMPERS) else "quenched"
    return say("as it was {} its steel has {} at most", how, Figure(most_hrc, Kind.HARDNESS))


def _most_hrc(plan: Plan, treated: Step, step: Step, earlier: Sequence[Outcome], zone: str) -> list[float]:
    """The most that each steel can have been read as, HRC; infinite where that is not published."""
    from coach.metals.own_curve import untaught

    read = [(step, tuple(one for one in earlier if one.mark.reading.zone == zone))]
    found = []
    for metal in steels_of(plan, treated):
        row = row_of(plan, treated, metal)
        expected = expected_hrc(row, treated, metal, read) if row is not None else None
        if row is None or expected is None:
            return [inf]
        doubt = hypot(expected[1], TESTER_DOUBT_HRC, untaught(row).doubt_hrc)
        found.append(expected[0] + QUESTIONED_BEYOND * doubt)
    return found
