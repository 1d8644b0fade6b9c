"""Hardening and tempering too hot, too cold, too long or too short is wrong until proved or done again."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final, NamedTuple

from coach.bench.job_state import JobState
from coach.bench.standing_beside import leaves_in_doubt
from coach.ledger.course import Course, Outcome
from coach.ledger.quenched import is_never_hard
from coach.ledger.verdict import Verdict
from coach.operations import Does
from coach.operations.shop_tests import SHOP_TESTS
from coach.quantities.figure import Figure, Kind
from coach.recipe.model import Step

HARDNESS: Final = "hardness"
#: What is measured of the treatment itself.
OF_TREATMENT: Final = ("temperature", "soak")

_TREATMENTS: Final = (Does.QUENCHES, Does.TEMPERS)


class WrongHeat(NamedTuple):
    """A hardening or a tempering whose temperature or soak was outside what was wanted."""

    outcome: Outcome
    step: Step
    what: Does

    @property
    def below(self) -> bool:
        """Whether it was too cold or too short."""
        return self.outcome.judged is not None and self.outcome.judged.below


def treatment_of(step: Step) -> Does | None:
    """Whether a step hardens or tempers; None where it does neither."""
    return next((what for what in _TREATMENTS if step.does(what)), None)


def wrong_heats(state: JobState) -> Iterator[WrongHeat]:
    """Each that was not done again since, and that no test made since has proved right."""
    wrong: dict[tuple[str, Does, str], WrongHeat] = {}
    for course in state.courses():
        finished = course.step.number <= len(state.records)
        if finished:
            wrong = {name: one for name, one in wrong.items() if not _is_done_anew(one, name[0], course.step)}
        what = treatment_of(course.step)
        latest: dict[tuple[str, str], Outcome] = {}
        for one in course.outcomes if what else ():
            of = one.mark.reading[:2]
            read = one.mark.reading.dimension in OF_TREATMENT and not one.questioned
            if read and not leaves_in_doubt(one, latest.get(of), course):
                latest[of] = one
        for (zone, dimension), outcome in latest.items():
            assert what is not None
            short = finished and outcome.verdict is Verdict.MORE_TO_GO  # of a soak
            if outcome.verdict is Verdict.OUT or short:
                wrong[zone, what, dimension] = WrongHeat(outcome, course.step, what)
            elif outcome.verdict is not None and not _lasts(wrong.get((zone, what, dimension)), course.step):
                del wrong[zone, what, dimension]
        proved = _proved(course)
        wrong = {name: one for name, one in wrong.items() if not _proves(one, proved.get(name[0], set()))}
    yield from wrong.values()


def is_hardness_told(state: JobState, number: int) -> bool:
    """Whether a hardness read of a temper tells what its heat left, or of the one that a step draws further.

    What a table, or the smith's own curve, makes of the heat in the recipe says no more then.
    """
    step = state.plan.recipe.steps[number - 1]
    if step.again:
        return True  # put in for what was read: how hot it is to be, that tells
    here = (course for course in state.courses() if course.step.number == number)
    return any(
        one.counts and one.mark.reading.dimension == HARDNESS for course in here for one in course.outcomes
    )


def is_hard_after_all(state: JobState, number: int) -> bool:
    """Whether a file or a hardness proved the quench of a step, or another follows in a bath of its own.

    Where its bath hardens nothing of its steel no file does: it may have been tried elsewhere.
    """
    steps = state.plan.recipe.steps
    zones = {*steps[number - 1].zones}
    if any(one.does(Does.QUENCHES) and zones <= {*one.zones} for one in steps[number:]):
        return True
    proved: set[str] = set()
    for course in state.courses():
        for zone, passed in _proved(course).items() if course.step.number >= number else ():
            told = passed & {HARDNESS} if is_never_hard(state.plan, steps[number - 1]) else passed
            if any(test == HARDNESS or Does.QUENCHES in SHOP_TESTS[test].mended_by for test in told):
                proved.add(zone)
    return zones <= proved


def replaced_hardness(outcome: Outcome, course: Course) -> Figure | None:
    """The hardness that was read before it in the step, where it was another and does not count with it."""
    before = None
    for one in course.outcomes:
        if one.mark.entry == outcome.mark.entry:
            break
        if one.counts and one.mark.reading[:2] == outcome.mark.reading[:2]:
            before = one.mark.reading.size_mm
    if outcome.mean_of > 1 or before is None or before == outcome.mark.reading.size_mm:
        return None
    return Figure(before, Kind.HARDNESS)


def _lasts(wrong: WrongHeat | None, step: Step) -> bool:
    """Whether a step that went right leaves a wrong heat as it is: no cooler temper hardens."""
    return wrong is None or (step.does(Does.TEMPERS) and not wrong.below)


def _is_done_anew(wrong: WrongHeat, zone: str, step: Step) -> bool:
    """Another quench undoes whatever was; another temper only one that left the steel too hard."""
    if zone not in step.zones:
        return False
    return step.does(Does.QUENCHES) or (
        wrong.what is Does.TEMPERS and wrong.below and step.does(Does.TEMPERS)
    )


def _proved(course: Course) -> dict[str, set[str]]:
    """By zone, the tests that passed in a step, as each was made last, and a hardness that was as wanted."""
    found: dict[str, set[str]] = {}
    for one in {one.mark.reading[:2]: one for one in course.outcomes if not one.questioned}.values():
        reading = one.mark.reading
        if one.verdict is Verdict.GOOD and (reading.dimension in SHOP_TESTS or reading.dimension == HARDNESS):
            found.setdefault(reading.zone, set()).add(reading.dimension)
    return found


def _proves(wrong: WrongHeat, passed: set[str]) -> bool:
    """Whether tests prove that it did its work after all; that the grain did not grow, none of them does.

    Grain grows by heat and hardly by time: of too long a soak it is the skin that is in doubt, and that is
    proved by what is hard.
    A file that skates tells that steel is hard, one that gives and springs back that it is tempered (common
    practice, no source); but so does a spring, and what was tempered too far only a hardness proves.
    """
    if wrong.what is Does.QUENCHES and not wrong.below:
        soaked = wrong.outcome.mark.reading.dimension == "soak"
        return soaked and bool(passed & {HARDNESS, "file_test"})
    if not wrong.below:
        return HARDNESS in passed
    return any(test == HARDNESS or wrong.what in SHOP_TESTS[test].mended_by for test in passed)
