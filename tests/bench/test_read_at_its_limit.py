"""What was read inside of a limit counts as inside, what was read outside as outside, on either side."""

from __future__ import annotations

import pytest

from coach.bench.session import Session
from coach.ledger.verdict import PlanState, SizeState
from tests.bench.jobs import at_step_of

#: The first hook's tip is drawn 90 ±9 mm long: 81 to 99.


def read_as(length: str) -> Session:
    session = at_step_of("first-hook", 2)
    session.heat()
    session.heat()
    session.read("tip.length", length)
    return session


@pytest.mark.parametrize("length", ["81.00", "81.01", "81.04", "98.99"])
def test_a_length_read_inside_is_inside_and_no_worse_than_tight_once_its_step_is_done(length: str) -> None:
    session = read_as(length)
    session.done()
    now = session.standing()
    size = next(one for one in now.sizes if one.name == "tip.length")
    assert size.state is SizeState.GOOD
    assert now.verdict is PlanState.TIGHT


@pytest.mark.parametrize("length", ["80.9", "99.01"])
def test_a_length_read_outside_seems_outside_on_either_side(length: str) -> None:
    session = read_as(length)
    session.done()
    size = next(one for one in session.standing().sizes if one.name == "tip.length")
    assert size.state is not SizeState.GOOD


def test_a_step_under_way_has_no_worse_word_at_the_limit_than_on_either_side_of_it() -> None:
    words = [read_as(length).standing().verdict for length in ("80.99", "81.00", "81.01", "81.2")]
    assert words == [PlanState.ON_PLAN] * 4


def test_a_length_that_counts_as_read_is_not_said_to_be_worked_on_when_its_step_ends() -> None:
    unsettled = read_as("80.99").done().did.unsettled  # type: ignore[union-attr]
    assert not unsettled.counted
    assert "tip.length" in unsettled.outside
