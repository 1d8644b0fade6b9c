"""One size, one figure: what is told of it in one place is told in every other, and goes by what is shown."""

from __future__ import annotations

import pytest

from coach.bench.checks import Check
from coach.bench.session import Session
from coach.ledger.verdict import Reason, Verdict, conformance
from coach.places import bundled_recipes
from coach.quantities import Kind
from tests.bench.jobs import shop
from tests.bench.law_of_done import NAMES, Job, before


def mattock_at(number: int) -> Session:
    path = bundled_recipes() / "mattock.yaml"
    session = shop().begin(path.read_text(encoding="utf-8"), path.name)
    while (step := session.standing().step) is not None and step.number < number:
        for _ in range(step.heats_planned):
            session.heat()
        session.done()
    return session


def heat_all(session: Session) -> None:
    step = session.standing().step
    assert step is not None
    for _ in range(step.heats_planned):
        session.heat()


def check_of(session: Session, name: str) -> Check:
    return next(one for one in session.standing().checks if one.name == name)


def row_of(session: Session, name: str) -> tuple[float, float]:
    row = next(one for one in session.standing().sizes if one.name == name)
    return row.expected.value, row.expected.doubt or 0.0


def test_a_size_that_is_surely_out_is_the_least_sure_to_pass_and_counts_for_nothing() -> None:
    session = mattock_at(
        4
    )  # an eye drifted 3.5 mm longer than the drawing lets it be, and no step shortens it
    heat_all(session)
    for name, size in {"hole_length": "47.2", "hole_width": "25.3", "width": "46", "length": "85.5"}.items():
        session.read(f"eye.{name}", size)
    told = session.standing()
    assert told.chance < 0.01
    assert told.will_pass is not None
    assert told.will_pass.least is not None
    assert told.will_pass.least.name == "eye.length"
    assert told.will_pass.least.chance < 0.01


def test_the_size_that_decides_is_known_as_well_in_the_doubt_as_in_its_row() -> None:
    session = mattock_at(5)
    heat_all(session)
    session.read("pick.thickness", "33.9")
    session.read("pick.end_thickness", "9")
    decides = session.doubt().decides
    assert decides is not None
    assert decides.name == "pick.thickness"
    assert decides.doubt.value == pytest.approx(row_of(session, "pick.thickness")[1])


def test_a_size_that_decides_and_is_to_be_measured_again_is_worth_measuring() -> None:
    session = mattock_at(5)
    heat_all(session)
    session.read("pick.thickness", "33.9")  # of at least 34, by a calliper: unsure
    session.read("pick.end_thickness", "9")
    assert session.doubt().would_tell[0].name == "pick.thickness"


def test_a_size_that_heats_have_worked_since_it_was_read_counts_by_the_doubt_that_is_shown() -> None:
    session = mattock_at(5)
    for _ in range(2):
        session.heat()
    session.read("pick.thickness", "33.6")
    for _ in range(2):
        session.heat()
    told = session.standing()
    assert isinstance(told.reason, Reason)
    assert told.reason.dimension == "thickness"
    row = next(one for one in told.sizes if one.name == "pick.thickness")
    # By the normal distribution, from the two figures that are shown beside the limits.
    shown = conformance(*row_of(session, "pick.thickness"), row.wanted.limits)
    assert told.chance == pytest.approx(shown, abs=0.05)


def test_no_more_is_aimed_at_than_the_drawing_allows() -> None:
    session = mattock_at(5)  # draws a pick of 210 ±16; thinner than its middle it would come out longer
    for _ in range(4):
        session.heat()
    for name, size in {"thickness": "34.6", "end_thickness": "7.5", "length": "170"}.items():
        session.read(f"pick.{name}", size)
    found = check_of(session, "pick.length")
    assert found.verdict is Verdict.MORE_TO_GO
    assert found.reading is not None
    assert found.reading.judged is not None
    assert found.reading.judged.wanted.limits.nominal <= 226.1


def aims_of(job: Job) -> dict[str, float]:
    checks = [one for one in job.standing().checks if one.kind is Kind.LENGTH]
    return {one.name: one.wanted.limits.nominal for one in checks if one.wanted is not None}


@pytest.mark.parametrize("name", NAMES)
def test_no_heat_moves_what_is_aimed_at(name: str) -> None:
    job = before(name, 1, measured=False)
    while job.state.step is not None:
        heated = job.heated()
        if job.step.heats:
            assert aims_of(heated) == pytest.approx(aims_of(job), abs=0.5), job.step.number
        job = heated.done()
