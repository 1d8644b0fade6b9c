"""What is entered with its hour after a change of the steps is of the step that has the number by then."""

from __future__ import annotations

from datetime import datetime, timedelta

import pytest

from coach.bench.checks import Check
from coach.bench.losing import LossAsked
from coach.bench.session import Session
from coach.ledger.verdict import Verdict
from coach.quantities.moments import on_the_wall
from tests.bench.jobs import at_step_of


def put_forward() -> tuple[Session, str]:
    """The adze with the marking out of its steel put next, and an hour before that was typed."""
    job = at_step_of("carpenters-adze", 3)
    last = on_the_wall(datetime.fromisoformat(job.history()[-1].at))
    marks = next(one for one in job.recipe.steps if one.title == "Mark out the steel edge")
    job.change(f"next {marks.number}")
    return job, (last + timedelta(seconds=5)).strftime("%Y-%m-%d %H:%M:%S")


def test_a_reading_with_its_hour_of_a_step_put_next_counts_and_is_answered() -> None:
    # 22 ±2 mm is wanted by the recipe.
    job, at = put_forward()
    answer = job.read("edge.mark", "23.5", then=job.then(None, at))
    assert isinstance(answer.did, Check)
    assert answer.did.name == "edge.mark"
    assert answer.did.verdict is Verdict.GOOD
    assert not answer.bad_news
    assert not answer.did.is_questioned


@pytest.mark.parametrize("size", ["25", "18"])
def test_it_is_told_as_it_would_be_without_its_hour(size: str) -> None:
    # More than 2 mm off a mark of 22 mm: bad news, whenever it was read.
    (job, at), (other, _) = put_forward(), put_forward()
    late, live = job.read("edge.mark", size, then=job.then(None, at)), other.read("edge.mark", size)
    for answer in (late, live):
        assert isinstance(answer.did, Check)
        assert answer.bad_news
    assert late.did.is_questioned is live.did.is_questioned  # type: ignore[union-attr]
    assert late.did.verdict is live.did.verdict  # type: ignore[union-attr]


def test_it_is_answered_as_well_once_the_step_is_done() -> None:
    job, _ = put_forward()
    job.done()
    answer = job.read("edge.mark", "22", then=job.then(3))
    assert isinstance(answer.did, Check)
    assert answer.did.verdict is Verdict.GOOD


def test_a_heat_with_its_hour_is_of_the_step_put_in_front() -> None:
    job, at = put_forward()
    job.heat_then(None, at)
    assert job.standing().heats == 1
    job.done()
    job.done()
    assert [one.step for one in job.history() if one.kind == "late heat"] == [3]
    assert job.standing().step is not None
    assert job.standing().heats == 0


def test_a_loss_with_its_hour_is_of_the_step_put_in_front() -> None:
    job, at = put_forward()
    job.lose(LossAsked("blade", "20 g", "ground away"), at)
    assert job.standing().step is not None
    assert job.history()[-1].step == 3
