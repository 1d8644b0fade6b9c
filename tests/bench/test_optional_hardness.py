"""A hardness that a temper is to leave is asked for though its recipe names no check: few have a tester."""

from __future__ import annotations

import pytest

from coach.bench.checks import Check
from coach.bench.in_turn import next_to_read
from coach.bench.session import Session
from coach.ledger.verdict import Verdict
from coach.operations import Does
from coach.telling.page import Line
from coach.telling.reading import reading_sentence
from coach.telling.standing import standing_page
from coach.telling.writing import Shown
from tests.bench.jobs import at_step_of

#: Tempers of the shelf that say what they leave, with the zone and the band.
TEMPERS = [
    ("cold-chisel", "edge", 54, 58),
    ("drawknife", "blade", 55, 58),
    ("garden-sickle", "blade", 54, 58),
    ("hedging-hatchet", "bit", 53, 57),
]


def at_its_temper(name: str) -> Session:
    job = at_step_of(name, 1)
    steps = [step for step in job.recipe.steps if step.does(Does.TEMPERS) and "hardness" in step.targets]
    return at_step_of(name, steps[0].number)


def hardness(job: Session) -> Check:
    return next(check for check in job.standing().checks if check.dimension == "hardness")


@pytest.mark.parametrize(("name", "zone", "low", "high"), TEMPERS)
def test_it_is_a_row_of_its_step_behind_the_others(name: str, zone: str, low: int, high: int) -> None:
    job = at_its_temper(name)
    check = hardness(job)
    assert check.name == f"{zone}.hardness"
    assert check is job.standing().checks[-1]
    assert check.wanted is not None
    assert (check.wanted.limits.low, check.wanted.limits.high) == (low, high)  # by the recipe's line


@pytest.mark.parametrize(("name", "zone", "low", "high"), TEMPERS)
def test_it_is_told_if_it_is_out(name: str, zone: str, low: int, high: int) -> None:
    job = at_its_temper(name)
    job.read(f"{zone}.hardness", f"HRC {high + 2}")
    assert hardness(job).verdict is Verdict.OUT
    assert f"2 HRC over the {high} HRC allowed" in reading_sentence(hardness(job), Shown())
    assert any(check.dimension == "hardness" for check in job.done_warning().checks)
    job = at_its_temper(name)
    job.read(f"{zone}.hardness", str((low + high) / 2))
    assert hardness(job).verdict is Verdict.GOOD


@pytest.mark.parametrize(("name", "zone", "low", "high"), TEMPERS)
def test_it_is_never_missed(name: str, zone: str, low: int, high: int) -> None:
    del low, high
    job = at_its_temper(name)
    asked = next_to_read(job.standing())
    assert asked is not None
    assert asked.dimension != "hardness"
    assert all(check.dimension != "hardness" for check in job.done_warning().checks)
    lines = [
        line.words
        for part in standing_page(job.standing(), Shown()).sections
        for line in part.body
        if isinstance(line, Line)
    ]
    assert any(f"({zone}.hardness); optional, for only a tester reads it" in told for told in lines)
    job.done()
    assert all(one.zone != zone or one.dimension != "hardness" for one in job.standing().checks)
