"""A reading in question counts for nothing at all, and no job goes on without rows and ways back."""

from __future__ import annotations

import pytest
from hypothesis import Phase, given, settings
from hypothesis import strategies as st

from coach.bench.entering import EntryFault
from coach.bench.session import Session
from coach.quantities import Kind
from coach.quantities.refusal import Refusal
from coach.telling.words import write
from tests.bench.test_laws import NAMES
from tests.bench.test_settled_sizes import at_step

Rows = list[tuple[str, float, float | None]]


def rows(job: Session) -> Rows:
    return [(size.name, size.expected.value, size.expected.doubt) for size in job.standing().sizes]


def punched(*, slip: bool) -> Session:
    job = at_step("cross-peen-hammer", 2)
    job.heat()
    job.read("eye.hole_length", "27.69")
    job.heat()
    if slip:  # the point of 27.54 mistyped
        job.read("eye.hole_length", "275.4")
    job.read("eye.hole_width", "8.63")
    job.read("eye.width", "49.35")
    return job


def test_a_slip_in_question_moves_no_size_and_the_job_goes_on() -> None:
    with_slip, without = punched(slip=True), punched(slip=False)
    assert rows(with_slip) == rows(without)
    for job in (with_slip, without):
        job.done()
    assert rows(with_slip) == rows(without)
    assert rows(with_slip)
    assert with_slip.ways_back()


@pytest.mark.parametrize("name", NAMES)
@settings(max_examples=8, phases=(Phase.generate,), derandomize=True)
@given(data=st.data())
def test_what_is_questioned_changes_no_size_now_nor_once_the_step_is_done(
    name: str, data: st.DataObject
) -> None:
    number = data.draw(st.integers(1, len(at_step(name, 1).recipe.steps) - 1))
    first, second = at_step(name, number), at_step(name, number)
    checks = [one for one in first.standing().checks if one.wanted and one.kind is Kind.LENGTH]
    for check in checks:
        assert check.wanted is not None
        aim = check.wanted.limits.nominal
        deed = data.draw(st.sampled_from(["slip", "good", "heat", "none"]))
        try:
            if deed == "heat":
                first.heat()
                second.heat()
            elif deed == "good":
                first.read(check.name, f"{aim:.2f}")
                second.read(check.name, f"{aim:.2f}")
            elif deed == "slip":
                first.read(check.name, f"{aim * 10.0:.2f}")
                read = next(one for one in first.standing().checks if one.name == check.name)
                if not read.is_questioned:
                    first.strike()
        except Refusal:
            continue
    assert rows(first) == rows(second)
    faults = []
    for job in (first, second):
        try:
            job.done()
        except EntryFault as fault:
            faults.append(fault)
    assert len(faults) in (0, 2)
    assert rows(first) == rows(second)
    assert rows(first)


def test_the_log_tells_a_reading_in_question_apart_from_those_that_count() -> None:
    slips = [one for one in punched(slip=True).history() if one.questioned]
    assert [write(one.words) for one in slips] == [
        "eye hole length 275.4 mm by calliper, questioned: it does not count"
    ]
