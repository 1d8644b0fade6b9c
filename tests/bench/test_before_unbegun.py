"""A weld that is found open when the next step is in hand and not begun is closed before that step."""

from __future__ import annotations

import pytest

from coach.bench.session import Session
from coach.ledger.verdict import Verdict
from tests.bench.jobs import at_step_of

PUNCH = 10
AGAIN = "do-again-weld-poll"


def tried() -> Session:
    """The adze with its face welded on, the eye to be punched, and the weld found open at the poll."""
    job = at_step_of("carpenters-adze", PUNCH)
    job.read("poll.weld_line", "fail")
    return job


def titles(job: Session) -> list[str]:
    return [one.title for one in job.plan.recipe.steps]


def in_hand(job: Session) -> int:
    step = job.standing().step
    assert step is not None
    return step.number


def test_the_way_back_goes_before_a_step_that_was_only_tried_in() -> None:
    job = tried()
    punched = job.plan.recipe.steps[PUNCH - 1].title
    job.take(AGAIN)
    assert titles(job)[PUNCH - 1 : PUNCH + 1] == ["Again: weld the face on the poll", punched]
    job.heat()
    job.read("poll.weld_line", "pass")
    job.done()
    assert in_hand(job) == PUNCH + 1
    assert not [one for one in job.ways_back() if one.name == AGAIN]


def test_once_a_heat_of_it_is_marked_it_is_finished_first() -> None:
    job = tried()
    job.heat()
    punched = job.plan.recipe.steps[PUNCH - 1].title
    job.take(AGAIN)
    assert titles(job)[PUNCH - 1 : PUNCH + 1] == [punched, "Again: weld the face on the poll"]


def test_so_does_a_size_of_it() -> None:
    job = tried()
    job.read("eye.length", "46")
    job.take(AGAIN)
    assert titles(job)[PUNCH] == "Again: weld the face on the poll"


@pytest.mark.parametrize("line", ["again 8", "add: straighten: poll, 1 heat, at orange"])
def test_so_goes_what_is_put_in_by_hand(line: str) -> None:
    job = tried()
    punched = job.plan.recipe.steps[PUNCH - 1].title
    job.change(line)
    assert titles(job)[PUNCH] == punched
    assert in_hand(job) == PUNCH
    if line == "again 8":
        again = job.plan.recipe.steps[PUNCH - 1]
        assert (again.operation, again.heats, again.lays) == ("reweld", 1, None)
        assert [one.verdict for one in job.standing().checks if one.name == "poll.weld_line"] == [Verdict.OUT]
