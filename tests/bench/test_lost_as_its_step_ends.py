"""Metal lost of a zone whose step is all but done: what is told counts on more work, and says so."""

from __future__ import annotations

import pytest

from coach.bench.losing import LossAsked
from coach.bench.session import Session
from coach.ledger.verdict import PlanState
from coach.telling.lost import loss_section
from coach.telling.page import Line
from coach.telling.words import write
from coach.telling.writing import METRIC
from tests.bench.jobs import at_step_of


@pytest.fixture
def drawn() -> Session:
    """A chisel whose edge is drawn and read, 0.8 mm longer than it must be."""
    job = at_step_of("cold-chisel", 2)
    for _ in range(4):
        job.heat()
    _read(job, 53.3)
    return job


def _read(job: Session, length_mm: float) -> None:
    for size, much in (("end_thickness", 4.06), ("end_width", 25.4), ("width", 18.54), ("length", length_mm)):
        job.read(f"edge.{size}", f"{much}")


def test_what_counts_on_more_work_says_so_and_what_comes_of_it_if_the_step_is_ended(drawn: Session) -> None:
    gone = drawn.loss(LossAsked("edge", "3.2mm", "burnt"))
    told = " ".join(line.words for line in loss_section(gone, METRIC).body if isinstance(line, Line))
    assert "Work the edge again to the sizes of this step" in told
    assert "Ended as it lies, its length is 2.3 ±2.2 mm short" in told

    drawn.lose(LossAsked("edge", "3.2mm", "burnt"))
    asked = [write(one.words) for one in drawn.standing().by_hand]
    assert len(asked) == 1
    assert "counts on that" in asked[0]

    drawn.done()
    assert drawn.standing().verdict is PlanState.OFF_PLAN
    spare = next(one for one in drawn.standing().spares if one.zone == "edge")
    assert spare.spare.value == pytest.approx(-2.3, abs=0.05)


def test_it_is_asked_for_no_more_once_a_heat_has_worked_it(drawn: Session) -> None:
    drawn.lose(LossAsked("edge", "3.2mm", "burnt"))
    drawn.heat()
    assert not drawn.standing().by_hand


def test_where_enough_is_left_as_it_lies_nothing_more_is_asked_for() -> None:
    job = at_step_of("cold-chisel", 2)
    for _ in range(4):
        job.heat()
    _read(job, 57.5)
    assert not job.loss(LossAsked("edge", "1mm", "burnt")).by_hand
