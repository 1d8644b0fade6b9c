"""While a reading that carries the verdict is in doubt, taking it again comes before every way back."""

from __future__ import annotations

import pytest

from coach.bench.session import Session
from coach.ledger.verdict import PlanState
from coach.telling.page import Line
from coach.telling.ways_back import first_of_all, ways_back_page
from coach.telling.why import stands_text
from coach.telling.writing import Shown
from tests.bench.jobs import at_step_of

MM = Shown("mm")


def read(recipe: str, step: int, *typed: tuple[str, str], heats: int = 0) -> Session:
    job = at_step_of(recipe, step)
    for _ in range(heats):
        job.heat()
    for name, size in typed:
        job.read(name, size)
    return job


# Each lies beyond its limit, or inside it, by less than a calliper leaves in doubt, 1.645 · 0.16 mm: nothing
# is proven of it either way (ISO 14253-1:2017). The limits: 6 ±0.5 billet, 8 ±0.8 shank.
@pytest.mark.parametrize(
    ("recipe", "step", "name", "typed", "bound"),
    [
        ("meat-fork", 8, "stem.side", "7.2", "7.3 mm"),
        ("layered-knife", 8, "billet.thickness", "6.6", "6.5 mm"),
        ("first-hook", 3, "shank.side", "7.2", "7.2 mm"),
    ],
)
def test_what_lies_too_near_a_limit_is_measured_again_before_any_way_back(
    recipe: str, step: int, name: str, typed: str, bound: str
) -> None:
    job = read(recipe, step, (name, typed))
    standing, ways = job.standing(), job.ways_back()
    assert standing.verdict is not PlanState.ON_PLAN
    label = next(one.label for one in standing.checks if one.name == name)
    told = first_of_all(standing, MM)
    assert told == f"First measure the {label} again: {typed} mm is too near {bound} to be sure of."
    lines = [
        one.words for one in ways_back_page(standing, ways, MM).sections[0].body if isinstance(one, Line)
    ]
    assert lines.index(told) == 1  # behind the verdict, before each of the ways


# A shank drawn of 10 mm square is longer than the bar that it is drawn from, about 110 · 64 / 100 = 70 mm,
# and at a side of 6.5 longer than 110 · 64 / 42 = 166 mm at that: 90 is neither.
def test_what_is_in_question_is_measured_again_before_any_way_back() -> None:
    job = read("first-hook", 3, ("shank.side", "6.5"), ("shank.length", "90"), heats=2)
    assert job.standing().verdict is PlanState.OFF_PLAN
    assert first_of_all(job.standing(), MM) == (
        "First measure the shank length again: 90 mm is in question and counts for nothing."
    )


def test_a_size_that_only_seems_to_be_outside_is_not_blamed_as_a_fact() -> None:
    job = read("meat-fork", 8, ("stem.side", "7.2"), ("stem.length", "260"))
    assert "seems 0.1 mm under the 7.3 mm" in stands_text(job.standing(), MM)


def test_what_no_other_reading_would_settle_is_not_asked_for_again() -> None:
    twice = [("billet.thickness", "6.6")] * 2
    assert not first_of_all(read("layered-knife", 8, *twice).standing(), MM)


def test_on_plan_there_is_nothing_before_all() -> None:
    job = at_step_of("meat-fork", 8)
    assert job.standing().verdict is PlanState.ON_PLAN
    assert not first_of_all(job.standing(), MM)
