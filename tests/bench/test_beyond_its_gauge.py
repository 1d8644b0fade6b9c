"""A size that its gauge does not span is told once in a job: a calliper of 150 mm reads no 205."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from coach.bench.session import Session
from coach.operations.gauges import doubts_of, own_doubts, take_own_doubts
from coach.telling.words import write
from coach.telling.writing import Shown
from tests.bench.jobs import at_step_of

MM = Shown("mm")
BEVEL = 7  # of the drawknife, whose blade of 200 mm is read by calliper where nobody says


@pytest.fixture
def longer_calliper() -> Iterator[None]:
    before = own_doubts()
    take_own_doubts({"calliper.span_mm": 300.0})
    yield
    take_own_doubts(before)


def told(job: Session, typed: str, gauge: str | None = None) -> str:
    return write(job.read("blade.length", typed, gauge=gauge).beware, MM)


def test_the_first_size_beyond_it_is_told_and_no_other_one() -> None:
    job = at_step_of("drawknife", BEVEL)
    assert "205 mm is beyond what a calliper of 150 mm spans" in told(job, "205")
    assert "spans" not in told(job, "206")


# What is as long as it or shorter, and whatever a rule reads, is nothing to ask about.
@pytest.mark.parametrize(
    ("name", "typed", "gauge"), [("blade.length", "205", "rule"), ("blade.width", "33", None)]
)
def test_what_its_gauge_spans_is_not_asked_about(name: str, typed: str, gauge: str | None) -> None:
    job = at_step_of("drawknife", BEVEL)
    assert "spans" not in write(job.read(name, typed, gauge=gauge).beware, MM)


@pytest.mark.usefixtures("longer_calliper")
def test_a_shop_says_how_far_its_own_spans() -> None:
    assert "spans" not in told(at_step_of("drawknife", BEVEL), "205")
    assert doubts_of("calliper") is None  # and a reading is as sure by it as by a shorter one
