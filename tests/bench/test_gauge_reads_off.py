"""A gauge that this shop's own jobs know to read too much is named where a size lies beside its limits."""

from __future__ import annotations

import pytest

from coach.bench.session import Session
from coach.log.kinds.shop_known import ShopKnown
from coach.quantities import Kind
from coach.telling.words import write
from tests.bench.jobs import at_step_of


def calliper_known(off_mm: float) -> Session:
    """A drawknife whose left tang, 6 ±0.5 mm thick, is set down, by a calliper that is known."""
    job = at_step_of("drawknife", 1)
    names = "a, b, c"
    job.begin_with(
        ShopKnown(what="calliper", unit=Kind.FINE.unit, value=off_mm, doubt=0.04, jobs=3, names=names)
    )
    job.done()
    job.heat()
    job.heat()
    job.read("left_tang.width", "13.5")
    return job


def told(job: Session, typed: str) -> str:
    return write(job.read("left_tang.thickness", typed).beware)


def test_a_size_over_its_limit_by_no_more_than_its_gauge_reads_over_says_what_it_is_by_that() -> None:
    # 6.6 less the 0.2 that the calliper reads too much is 6.4 mm, inside 6 ±0.5.
    said = told(calliper_known(0.2), "6.6")
    assert "reads 0.2 mm too much" in said
    assert "6.4" in said


@pytest.mark.parametrize(
    ("off_mm", "typed"),
    [
        (0.2, "6.0"),  # good
        (0.2, "5.4"),  # too little: a calliper that reads too much does not make it so
        (0.2, "7.4"),  # outside whatever the calliper reads
        (0.05, "6.6"),  # as likely none as any
    ],
)
def test_else_nothing_is_said_of_the_gauge(off_mm: float, typed: str) -> None:
    assert "too much" not in told(calliper_known(off_mm), typed)
