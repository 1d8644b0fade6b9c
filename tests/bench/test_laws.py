"""What holds of every job, whatever is read in whatever order, over the recipes that come with the coach."""

from __future__ import annotations

from math import isfinite

import pytest
from hypothesis import Phase, given, settings
from hypothesis import strategies as st

from coach.bench.entering import EntryFault
from coach.bench.session import Session
from coach.bench.standing import Standing
from coach.ledger.verdict import PlanState, SizeState
from coach.places import bundled_recipes
from coach.quantities.refusal import Refusal
from tests.bench.jobs import at_step_of

NAMES = sorted(path.stem for path in bundled_recipes().glob("*.yaml"))


def some_day(name: str, data: st.DataObject) -> Session:
    """A job that is somewhere on its way, with heats, readings near and far, and steps gone back to."""
    steps = len(at_step_of(name, 1).recipe.steps)
    session = at_step_of(name, 1 + data.draw(st.integers(0, steps)))
    for _ in range(data.draw(st.integers(1, 6))):
        standing = session.standing()
        if standing.step is None:
            break
        deed = data.draw(st.sampled_from(["read", "read", "read", "heat", "done", "back"]))
        if deed == "heat":
            session.heat()
        elif deed == "done":
            session.done()
        elif deed == "back" and standing.done:
            session.back()
        elif deed == "read":
            asked = [one for one in standing.checks if one.wanted is not None and one.kind.value == "length"]
            if asked:
                check = data.draw(st.sampled_from(asked))
                assert check.wanted is not None
                aim = check.wanted.limits.nominal
                off = data.draw(st.sampled_from([0.0, 0.01, -0.01, 0.03, -0.03, 0.08, -0.08, 0.3]))
                try:
                    session.read(check.name, f"{aim * (1.0 + off):.2f}", insist=data.draw(st.booleans()))
                except Refusal:
                    continue
    return session


def _holds_of_a_standing(session: Session, standing: Standing) -> None:
    assert isfinite(standing.chance)
    assert 0.0 <= standing.chance <= 1.0
    assert not standing.left_out
    for size in standing.sizes:
        assert size.expected.value > 0.0
    if standing.step is None:  # what was read of a finished tool is told as it was read
        read = {entry.reading for entry in session.history() if entry.reading and not entry.struck}
        for size in standing.sizes:
            if size.measured:
                typed = [
                    one.size.value for one in read if (one.zone, one.dimension) == (size.zone, size.dimension)
                ]
                assert min(abs(size.expected.value - each) for each in typed) < 0.5, (size, typed)
    if standing.verdict is not PlanState.ON_PLAN:
        return
    for check in standing.checks:
        judged = check.reading.judged if check.reading is not None else None
        if judged is not None and not check.is_open and not judged.too_coarse:
            assert not check.is_beyond, check
    for size in standing.sizes:  # measured or not, worked still or not
        assert size.state is SizeState.GOOD, size


@pytest.mark.parametrize("name", NAMES)
@settings(max_examples=9, phases=(Phase.generate,), derandomize=True)
@given(data=st.data())
def test_what_is_said_of_any_job_holds_together(name: str, data: st.DataObject) -> None:
    session = some_day(name, data)
    _holds_of_a_standing(session, session.standing())


@pytest.mark.parametrize("name", NAMES)
@settings(max_examples=5, phases=(Phase.generate,), derandomize=True)
@given(data=st.data())
def test_a_way_back_comes_out_as_it_was_offered_and_can_be_taken_back(name: str, data: st.DataObject) -> None:
    session = some_day(name, data)
    before = session.standing()
    ways = [way for way in session.ways_back() if not way.again]
    if not ways:
        return
    way = data.draw(st.sampled_from(ways))
    try:
        session.take(way.name)
    except EntryFault as fault:
        raise AssertionError(f"{way.name}: {fault}") from None
    after = session.standing()
    _holds_of_a_standing(session, after)
    session.strike()
    again = session.standing()
    assert (again.chance, again.verdict) == (before.chance, before.verdict)
    assert (after.verdict, after.chance) == (way.verdict, way.chance), (way.name, way.reason, after.reason)
