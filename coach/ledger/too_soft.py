"""A hardness read lower than a temper leaves it, of steel that passed its file test from the quench."""

from __future__ import annotations

from collections.abc import Iterable
from math import hypot, inf

from coach.ledger.course import Course, Outcome
from coach.ledger.hot_work import steels_of
from coach.ledger.own_curves import FILE_TEST, HARDNESS, TESTER_DOUBT_HRC, tempered_to
from coach.ledger.plan import Plan
from coach.ledger.quenched import quenched_to_skate
from coach.ledger.reading import QUESTIONED_BEYOND
from coach.ledger.tempered import row_of
from coach.operations import Does
from coach.operations.shop_test import Result
from coach.quantities import COVERAGE, Figure, Kind, celsius, say

_TEMPERATURE = "temperature"
_SKATED, _PASSED = "from the quench a file skated over it", "it passed the file test of its quench"
#: What was measured is a skin without carbon, or a slip, where the quench took (common practice, no source).
_TOO_SOFT = "{}, and {} leaves its steel {} at least: on a spot ground clean it may read more"
_TOO_COOL = "{} was measured, and {}: so cool a temper leaves it {} at least"


def questioned_as_too_soft(plan: Plan, course: Course, before: Iterable[Course]) -> Course:
    """A temper whose heat leaves more than the hardness read beside it: the later of the two is questioned.

    The same reading twice stands, and so does one that was insisted on.
    """
    skated = _skated(before)
    found: list[Outcome] = []
    for outcome in course.outcomes:
        zone, dimension, _ = outcome.mark.reading[:3]
        stands = outcome.mark.insisted or outcome.questioned or outcome.drawn
        stands = stands or dimension not in (HARDNESS, _TEMPERATURE)
        again = any(one.questioned and one.mark.reading[:3] == outcome.mark.reading[:3] for one in found)
        told = found if stands or again or zone not in skated else [*found, outcome]
        found.append(_held_against(plan, course, told, zone) if told is not found else outcome)
    return course._replace(outcomes=tuple(found))


def _held_against(plan: Plan, course: Course, outcomes: list[Outcome], zone: str) -> Outcome:
    """The last of some readings, questioned where a heat and a hardness among them cannot both be."""
    last = outcomes[-1]
    here = [one for one in outcomes if one.mark.reading.zone == zone and not one.questioned]
    read = {one.mark.reading.dimension: one for one in here}
    if not {HARDNESS, _TEMPERATURE} <= read.keys():
        return last
    if last.mark.reading.dimension == _TEMPERATURE and _is_another_run(here):
        return last
    hrc = read[HARDNESS].mark.reading.size_mm
    least_hrc = _least_hrc(plan, course, here)
    if hrc >= least_hrc or round(hrc, 1) >= round(least_hrc):
        return last
    heat = read[_TEMPERATURE].outdone_by or read[_TEMPERATURE].mark.reading
    least = Figure(least_hrc, Kind.HARDNESS)
    tried = _SKATED if quenched_to_skate(plan, course.step) else _PASSED
    against = (
        say(_TOO_SOFT, tried, celsius(heat.size_mm), least)
        if last.mark.reading.dimension == HARDNESS
        else say(_TOO_COOL, Figure(hrc, Kind.HARDNESS), tried, least)
    )
    return last._replace(questioned=True, judged=None, against=against)


def _is_another_run(outcomes: list[Outcome]) -> bool:
    """Whether a heat was read before the last one: it came after the hardness."""
    return sum(one.mark.reading.dimension == _TEMPERATURE for one in outcomes) > 1


def _least_hrc(plan: Plan, course: Course, outcomes: list[Outcome]) -> float:
    """The least that a temper can have left, as it was read; none where that is not published."""
    found = []
    for metal in steels_of(plan, course.step):
        row = row_of(plan, course.step, metal)
        left = tempered_to(row, course.step, [(course.step, outcomes)]) if row is not None else None
        if left is None:
            return -inf
        tempered, doubt_hrc = left
        doubt_hrc = hypot(tempered.softer_hrc / COVERAGE, doubt_hrc, TESTER_DOUBT_HRC)
        found.append(tempered.hrc - QUESTIONED_BEYOND * doubt_hrc)
    return min(found, default=-inf)


def _skated(before: Iterable[Course]) -> set[str]:
    """The zones that passed their file test from the last quench, and that were not tempered since."""
    found: set[str] = set()
    for course in before:
        found -= {*course.step.zones, *course.step.heated} if course.step.heats else set(course.step.zones)
        if course.step.does(Does.QUENCHES):
            last = {
                one.mark.reading.zone: Result.of(one.mark.reading.size_mm)
                for one in course.outcomes
                if one.mark.reading.dimension == FILE_TEST and not one.questioned
            }
            found |= {zone for zone, result in last.items() if result is Result.PASS}
    return found
