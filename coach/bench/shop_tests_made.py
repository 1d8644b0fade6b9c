"""The tests of the shop that were made of a job or asked for, and what came of each last."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from coach.bench.job_state import JobState
from coach.forms import said
from coach.ledger.quenched_again import quenched_again
from coach.ledger.tested_before import undone_since
from coach.ledger.verdict import Verdict
from coach.operations import Does
from coach.operations.shop_test import Result
from coach.operations.shop_tests import SHOP_TESTS
from coach.recipe.model import Step


class CameOfTest(NamedTuple):
    """A test of the shop, and what came of it last."""

    zone: str
    test: str
    result: Result | None  # `pass`, `doubt` or `fail`; `null` when it was asked for and not made
    step: int  # the step that it was made in, or asked in
    entry: int  # its number in the log; 0 when it was not made
    failed_before: int  # how often it had failed before
    tells: bool = True  # false where a fail is no more than a doubt: a file bites tempered steel too
    undone_by: int = 0  # the step since, that is done, which makes what came of it old; 0 for none

    @property
    def label(self) -> str:
        """As it is spoken of."""
        return f"{self.zone} {said(self.test)}"


def made_tests(state: JobState) -> Iterator[CameOfTest]:
    """Every test that was made or asked for up to now, with what came of it last.

    One that says something else of tempered steel, as a file does, has two answers: of the quench and since.
    """
    found: dict[tuple[str, str, bool], CameOfTest] = {}
    for course in state.courses():
        step, again = course.step, quenched_again(course)
        crack = (f"{step.zones[0]}.crack_test",) if again is not None and not again.looked else ()
        for name in (*step.checks, *crack):
            zone, test = name.split(".", 1)
            if test in SHOP_TESTS and step.number <= len(state.records):
                of = _of_test(step, zone, test)
                was = found.get(of)
                if was is None or _makes_anew(step):
                    found[of] = CameOfTest(zone, test, None, step.number, 0, _failed(was))
        for outcome in course.outcomes:
            reading = outcome.mark.reading
            if reading.dimension in SHOP_TESTS and outcome.counts:
                of = _of_test(step, reading.zone, reading.dimension)
                result, failed = Result.of(reading.size_mm), _failed(found.get(of))
                tells = outcome.verdict is not Verdict.UNSURE
                made = CameOfTest(of[0], of[1], result, step.number, outcome.mark.entry, failed, tells)
                found[of] = made
        if again is not None:  # what was tried before the second quench is history
            for of, was in found.items():
                tried_before = was.step == step.number and 0 < was.entry < again.entry
                if tried_before and not SHOP_TESTS[was.test].as_it_heats:
                    found[of] = was._replace(result=None, entry=0, failed_before=_failed(was), tells=True)
    recipe, done = state.plan.recipe, len(state.records)
    for one in found.values():
        since = undone_since(recipe, done, one.step, one.zone, one.test) if one.entry else 0
        yield one._replace(undone_by=since)


def _failed(was: CameOfTest | None) -> int:
    return was.failed_before + (was.result is Result.FAIL) if was is not None else 0


def _makes_anew(step: Step) -> bool:
    """Whether what a test said before it is history: of steel that is hardened once more, or made again."""
    return step.again or step.does(Does.QUENCHES)


def _of_test(step: Step, zone: str, test: str) -> tuple[str, str, bool]:
    of_quench = SHOP_TESTS[test].once_tempered is not None and step.does(Does.QUENCHES)
    return zone, test, of_quench
